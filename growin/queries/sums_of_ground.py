"""Sums of the ground: sand, coring, water, evenness, drains, seed."""

from collections.abc import Sequence

from greens.models import Green
from greens.queries import sands
from growin.agronomy import amounts, drainage, dressing, sand, seed
from growin.agronomy import water as waters
from growin.agronomy.plain_words import amount
from growin.agronomy.season import in_winter, year_start
from growin.queries import suits
from growin.queries.sums import Answer, Place, shared, tonnes


def sand_for(place: Place, *, area_dm2, greens, way, how_much, label=None) -> Answer:
    """Sand for a depth or a mass, beside what the season has had and what it may have."""
    density = float(label.bulk_density_t_m3) if label and label.bulk_density_t_m3 else place.bulk_density_t_m3
    depth = float(how_much) if way == amounts.DEPTH_MM else sand.topdressing_depth(float(how_much), density)
    kg_m2, whole = sand.topdressing_mass(depth, density), sand.topdressing(depth, area_dm2 / 100, density)
    shares = [(one.name, tonnes(sand.topdressing(depth, one.area_m2, density).mass_t)) for one in greens]
    return Answer(
        (
            ("Sand in all", tonnes(whole.mass_t)),
            ("Volume", amount(whole.volume_m3, "m³", 2)),
            ("Rate", f"{amount(kg_m2, 'kg/m²', 2)}, {amount(depth, 'mm', 2)} deep"),
        ),
        shared(shares),
        (*of_season(place, greens, kg_m2), *(suits.sand_on(label, greens, place.settings) if label else ())),
    )


def of_season(place: Place, greens: Sequence[Green], kg_m2: float) -> tuple[str, ...]:
    """What is doubtful about the pass, and for each green what it has had since midwinter with it."""
    had = sands.kg_m2(greens, year_start(place.on, place.latitude_deg), place.on)
    of_any, said = doubts(place, kg_m2), []
    for green in greens:
        before = had.get(green.pk, 0.0)
        season = sand.sand_of_season([before, kg_m2], place.bulk_density_t_m3)
        said.append(f"{green}: {amount(season.mass_kg_m2, 'kg/m²')} this year with this pass.")
        said += [f"{green}: {one}" for one in doubts(place, kg_m2, before) if one not in of_any]
    return (*of_any, *said)


def doubts(place: Place, kg_m2: float, before_kg_m2: float = 0.0) -> tuple[str, ...]:
    """What a plan would say about the pass, by the limits in force."""
    before, winter = round(before_kg_m2, 2), in_winter(place.on, place.latitude_deg)
    return dressing.judge_dressing(kg_m2, place.settings, season_so_far_kg_m2=before, winter=winter)


def coring(place: Place, *, area_dm2, greens, tine_mm, spacing_mm, row_spacing_mm, depth_mm) -> Answer:
    """What hollow tines open, bring up and ask for in sand."""
    pattern = float(tine_mm), float(spacing_mm), float(row_spacing_mm)
    opened = sand.hollow_coring(*pattern)
    whole = sand.coring_of_area(*pattern, float(depth_mm), area_dm2 / 100, place.bulk_density_t_m3)
    m2_t = whole.fill_t / (area_dm2 / 100)
    shares = [(one.name, tonnes(m2_t * one.area_m2)) for one in greens]
    figures = (
        ("Sand to fill the holes", tonnes(whole.fill_t)),
        ("Surface opened", amount(opened.surface_percent, "%")),
        ("Cores to carry off", amount(whole.removed_m3, "m³", 2)),
        ("Holes", f"{opened.holes_per_m2:,.0f} on each m²"),
    )
    return Answer(figures, shared(shares), (f"Dry sand at {amount(place.bulk_density_t_m3, 't/m³', 2)}.",))


def water(
    place: Place,
    *,
    area_dm2,
    greens,
    moisture_percent,
    target_percent,
    depth_mm,
    evenness_percent,
    output_mm_h=None,
) -> Answer:
    """Water that lifts a layer to a target moisture, as it has to be put on."""
    net = waters.irrigation_depth(float(moisture_percent), float(target_percent), float(depth_mm))
    gross = waters.gross_irrigation(net, float(evenness_percent))
    figures = [
        ("Put on", amount(gross, "mm")),
        ("In all", amount(waters.water_volume(gross, area_dm2 / 100), "m³ of water", 2)),
        ("The roots get", amount(net, "mm")),
    ]
    if output_mm_h:
        figures.append(("Heads run", amount(waters.run_minutes(gross, float(output_mm_h)), "min", 0)))
    shares = [(one.name, amount(waters.water_volume(gross, one.area_m2), "m³ of water", 2)) for one in greens]
    return Answer(tuple(figures), shared(shares))


def even(place: Place, *, catch_ml) -> Answer:
    """How evenly the heads throw."""
    found = waters.distribution_uniformity(catch_ml)
    figures = (
        ("Lowest quarter", amount(found.lower_quarter_percent, "%", 0)),
        ("Christiansen", amount(found.christiansen_percent, "%", 0)),
        ("Cans", str(len(catch_ml))),
    )
    more = waters.gross_irrigation(1, found.lower_quarter_percent) if found.lower_quarter_percent else None
    words = (
        f"For the driest quarter to get 1 mm, put on {amount(more, 'mm', 2)}."
        if more
        else "Some cans are dry."
    )
    return Answer(figures, notes=(words,))


def drain(place: Place, *, bore_mm, fall_percent, drained_m2, rain_mm_h) -> Answer:
    """Whether a pipe carries a design rain."""
    roughness = place.settings["drain.roughness"]
    flow = drainage.drain_flow(
        float(bore_mm), float(fall_percent) / 100, float(drained_m2), float(rain_mm_h), roughness
    )
    figures = (
        ("The pipe", "carries it" if flow.carries else "does not carry it"),
        ("Comes", amount(flow.inflow_l_s, "l/s", 2)),
        ("Carried when full", amount(flow.capacity_l_s, "l/s", 2)),
        ("Most rain it carries", amount(flow.most_rain_mm_h, "mm/h", 0)),
    )
    return Answer(
        figures, notes=(f"Manning n {roughness:g}; the rootzone holds back the first of any rain.",)
    )


def sow(place: Place, *, area_dm2, greens, live_rate_g_m2, purity_percent, germination_percent) -> Answer:
    """Seed to weigh out for a rate of live seed."""
    lot = float(live_rate_g_m2), float(purity_percent), float(germination_percent)
    whole = seed.seed_quantity(*lot, area_dm2 / 100)
    live = seed.pure_live_seed(*lot[1:])
    shares = [(one.name, amount(seed.seed_quantity(*lot, one.area_m2).seed_kg, "kg", 2)) for one in greens]
    figures = (
        ("Seed in all", amount(whole.seed_kg, "kg", 2)),
        ("Rate", amount(whole.seed_g_m2, "g/m²")),
        ("Pure and alive", amount(live.pure_live_percent, "%")),
    )
    return Answer(figures, shared(shares))
