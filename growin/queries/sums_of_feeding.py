"""Sums of feeding: product for a rate, tank mix, spreader, sprayer, soil test, clippings."""

from fractions import Fraction

from greens.models import Label
from growin.agronomy import amounts, calibration, label, mowing, nutrition, soil_test
from growin.agronomy import tank as tanks
from growin.agronomy.feeding import companions_kg_ha, judge_dose
from growin.agronomy.plain_words import amount
from growin.queries.sums import Answer, NoAnswer, Place, shared


def product(place: Place, *, area_dm2, greens, label, element, rate_kg_ha, hopper_kg=None) -> Answer:
    """How much of a product brings a rate of one element, and what else comes with it."""
    content = label.contents.get(element)
    if not content:
        raise NoAnswer("label", f"The label of {label.product} prints no {element}; choose another product.")
    whole = needed(rate_kg_ha, area_dm2, content)
    brought = brought_by([(whole, label.contents)], area_dm2)
    figures = [
        (f"{label.product} in all", amounts.in_words(whole, label.unit)),
        ("Rate", amounts.rate_in_words(whole, label.unit, area_dm2)),
        ("Brings", ", ".join(f"{name} {amount(kg_ha, 'kg/ha', 2)}" for name, kg_ha in brought.items())),
    ]
    if hopper_kg and not label.is_liquid:
        figures.append(("Hoppers", loads_in_words(hopper(whole, area_dm2, hopper_kg), "kg")))
    shares = [
        (green.name, amounts.in_words(needed(rate_kg_ha, green.area_dm2, content), label.unit))
        for green in greens
    ]
    return Answer(tuple(figures), shared(shares), doubts(place, label, brought.get("N", 0.0)))


def needed(rate_kg_ha, area_dm2: int, content) -> int:
    """Whole g or ml of a product with so many g in each kg or litre, for a rate of its element."""
    grams_m2 = Fraction(str(rate_kg_ha)) / nutrition.KG_HA_PER_G_M2
    return label.half_up(grams_m2 * Fraction(area_dm2, 100) * 1000 / Fraction(content))


def brought_by(parts, area_dm2: int) -> dict[str, float]:
    """kg/ha by element of one product or a mix."""
    return {name: mg / 100 for name, mg in tanks.mix_nutrients_mg_m2(parts, area_dm2).items() if mg}


def doubts(place: Place, of: Label, n_kg_ha: float) -> tuple[str, ...]:
    form = "foliar" if of.is_liquid else "slow_release" if of.release_weeks else "granular"
    return judge_dose(round(n_kg_ha, 2), form, place.settings)


def hopper(whole_g: int, area_dm2: int, hopper_kg) -> tanks.Loads:
    area_m2 = area_dm2 / 100
    return tanks.hopper_fill(area_m2, whole_g / area_m2, float(hopper_kg))


def loads_in_words(loads: tanks.Loads, unit: str) -> str:
    """ "2 full, then 15.5 kg", "14 l, one filling"."""
    last = amount(loads.last_load, unit, 2)
    if not loads.full_loads:
        return f"one filling of {last}"
    return f"{loads.full_loads} full, then {last}" if loads.last_load else f"{loads.full_loads} full"


def tank(place: Place, *, area_dm2, greens, water_l_ha, tank_l, mix) -> Answer:
    """How often a tank is filled, what goes into each filling, and what the mix brings."""
    area_m2 = area_dm2 / 100
    fills = tanks.tank_fill(area_m2, float(water_l_ha), float(tank_l))
    parts = [(one, tanks.part_of_mix(float(rate) / 10, area_m2, fills)) for one, rate in mix]
    tanks.require_room((part.total for one, part in parts if one.is_liquid), fills.total)
    brought = brought_by([(round(part.total), one.contents) for one, part in parts], area_dm2)
    figures = [
        ("Fillings", loads_in_words(fills, "l")),
        ("Spray in all", amount(fills.total, "l")),
        ("A full tank does", amount(fills.area_per_load_m2, "m²", 0)),
        *((f"{one.product} in each filling", part_in_words(part, one.unit)) for one, part in parts),
    ]
    notes = [", ".join(f"{name} {amount(kg_ha, 'kg/ha', 2)}" for name, kg_ha in brought.items())]
    notes = [f"The mix brings {words}." for words in notes if words]
    notes += judge_dose(round(brought.get("N", 0.0), 2), "foliar", place.settings)
    shares = [(one.name, amount(one.area_m2 * float(water_l_ha) / 10_000, "l")) for one in greens]
    return Answer(tuple(figures), shared(shares), tuple(notes))


def part_in_words(part: tanks.PartOfMix, unit: str) -> str:
    full, last = (amounts.in_words(round(one), unit) for one in (part.full_tank, part.last_tank))
    if not part.full_tank:
        return last
    return f"{full}, in the last {last}" if part.last_tank else full


def spreader(place: Place, *, wanted_g_m2, run_m, swath_m, pans_g=(), pan_area_m2=None) -> Answer:
    """What a spreader should drop on a run, and how a catch test compares."""
    wanted, run_m2 = float(wanted_g_m2), float(run_m) * float(swath_m)
    figures = [("Should fall on the run", amount(wanted * run_m2, "g", 0))]
    if not pans_g:
        return Answer(tuple(figures), notes=(f"{amount(run_m2, 'm²')} at {amount(wanted, 'g/m²')}.",))
    if not pan_area_m2:
        raise NoAnswer("pan_area_m2", "Say how large one pan is, so that its catch becomes a rate.")
    found = calibration.pan_test(pans_g, float(pan_area_m2))
    factor = calibration.setting_factor(wanted, found.rate_g_m2)
    figures = [("It delivers", amount(found.rate_g_m2, "g/m²")), ("Wanted", amount(wanted, "g/m²")), *figures]
    return Answer(tuple(figures), notes=(of_setting(place, factor), of_evenness(place, found.uneven_percent)))


def of_setting(place: Place, factor: float) -> str:
    if abs(factor - 1) * 100 <= place.settings["calibration.rate_off_percent"]:
        return "The setting is right."
    more = "too little; open it" if factor > 1 else "too much; close it"
    return f"That is {more} until it delivers {amount(factor, places=2)} times as much, and catch again."


def of_evenness(place: Place, uneven_percent: float) -> str:
    most = place.settings["calibration.uneven_percent"]
    words = (
        f"Unevenness across the pans {amount(uneven_percent, '%', 0)}, at most {amount(most, '%', 0)} wanted"
    )
    return (
        f"{words}."
        if uneven_percent <= most
        else f"{words}: change the swath, or go over it twice crosswise."
    )


def sprayer(place: Place, *, caught_ml, seconds, spacing_m, run_m, run_seconds, wanted_l_ha=None) -> Answer:
    """What a sprayer puts out by a catch under its nozzles, and which nozzles are off."""
    found = calibration.nozzle_test(
        caught_ml, float(seconds), place.settings["calibration.nozzle_off_percent"]
    )
    speed = calibration.travel_speed_km_h(float(run_m), float(run_seconds))
    output = calibration.sprayer_output(found.mean_l_min, speed, float(spacing_m))
    notes = []
    if found.off:
        numbers = ", ".join(str(one) for one in found.off)
        notes.append(
            f"Off the mean: nozzle {numbers}, counted as written. Clean or change, then catch again."
        )
    if wanted_l_ha:
        right = speed / calibration.setting_factor(float(wanted_l_ha), output)
        notes.append(f"At {amount(right, 'km/h')} it would put out {amount(float(wanted_l_ha), 'l/ha', 0)}.")
    figures = (
        ("It puts out", amount(output, "l/ha", 0)),
        ("Speed", amount(speed, "km/h")),
        ("A nozzle gives", amount(found.mean_l_min, "l/min", 2)),
    )
    return Answer(figures, notes=tuple(notes))


def soil(
    place: Place, *, element, use_kg_ha, soil_test_ppm, extractant, depth_mm, bulk_density_kg_m3
) -> Answer:
    """What use and soil test ask for in a year."""
    minimum = soil_test.minimum_ppm(element, place.settings)
    asked = soil_test.requirement_from_test(
        float(use_kg_ha) / 10, float(soil_test_ppm), extractant, minimum,
        depth_mm=float(depth_mm), bulk_density_kg_m3=float(bulk_density_kg_m3),
    )  # fmt: skip
    return Answer(
        (
            (f"{element} to apply this year", amount(asked * 10, "kg/ha")),
            ("Test", amount(float(soil_test_ppm), "ppm")),
            ("Minimum, Mehlich-3", amount(minimum, "ppm")),
        ),
        notes=(f"As the element, {amount(asked, 'g/m²', 2)}; labels that print oxides need more of it.",),
    )


def clippings(place: Place, *, clippings_ml_m2, leaf_n_percent) -> Answer:
    """Nitrogen carried off with the boxes, and what belongs with it."""
    gone = mowing.clippings_nitrogen(
        float(clippings_ml_m2), place.settings["mowing.dry_matter_g_ml"], float(leaf_n_percent)
    )
    n_kg_ha = gone.nutrient_g_m2 * 10
    with_it = companions_kg_ha(n_kg_ha, place.settings)
    figures = (
        ("Nitrogen carried off", amount(n_kg_ha, "kg/ha", 2)),
        ("Dry matter", amount(gone.dry_matter_g_m2, "g/m²", 2)),
    )
    words = ", ".join(f"{name.capitalize()} {amount(kg_ha, 'kg/ha', 2)}" for name, kg_ha in with_it.items())
    return Answer(figures, notes=(f"With it at most: {words}.",))
