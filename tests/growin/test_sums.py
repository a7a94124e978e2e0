"""Everyday sums on the page: an answer from few boxes, or a sentence why there is none."""

from datetime import date
from decimal import Decimal

import pytest

from greens.choices import AmountUnit, LayerKind, MaterialKind, ProductKind
from greens.models import Green, Label, LabelLine, Layer, Material, Product, Setting
from growin.forms.sums import SUMS
from growin.queries import suits
from tests.cast import laid_green
from tests.entries import logged

ON = date(2026, 1, 1)


def label(cast, name, kind=ProductKind.GRANULAR, unit=AmountUnit.GRAMS, parts=(), material=None, **more):
    product = Product.objects.create(club=cast.club, kind=kind, name=name, material=material)
    made = Label.objects.create(product=product, revision=1, from_day=ON, by=cast.head, unit=unit, **more)
    for part, percent in dict(parts).items():
        LabelLine.objects.create(label=made, part=part, percent=percent)
    return made


def setting(cast, key, value):
    Setting.objects.create(club=cast.club, key=key, value=value, in_force_from=ON, by=cast.head, why="-")


def page(as_, cast, key, role="staff", **asked):
    """The words of a sum's page, and whether it answers."""
    path = f"/clubs/{cast.club.slug}/sums/{key}/"
    answer = as_(role).get(path, {"go": "1"} | asked if asked else {})
    assert answer.status_code == 200
    return answer


def figures(answer) -> dict[str, str]:
    """Words and value of each large figure."""
    return dict(answer.context["answer"].figures)


def sentences(answer) -> list[str]:
    return [sentence for wrongs in answer.context["form"].errors.values() for sentence in wrongs]


@pytest.fixture
def second(cast) -> Green:
    return laid_green(cast.club, "Ninth", area_m2=500).green


def test_how_much_product_brings_a_rate_to_two_greens(cast, as_, second):
    feed = label(cast, "Heath 12-0-9", parts={"N_total": 12, "K2O": 9})
    answer = page(
        as_, cast, "product", greens=[cast.green.pk, second.pk], label=feed.pk, element="N", rate_kg_ha="6"
    )
    # By hand: 6 kg/ha of N at 12 % are 50 kg/ha, 4.75 kg on 950 m²; K2O 9 % is K 7.47 %, 3.74 kg/ha
    assert figures(answer) == {
        "Heath 12-0-9 in all": "4.75 kg",
        "Rate": "5 g/m² (50 kg/ha)",
        "Brings": "N 6 kg/ha, K 3.74 kg/ha",
    }
    assert answer.context["answer"].shares == (("Seventh", "2.25 kg"), ("Ninth", "2.5 kg"))


def test_a_dose_that_is_doubtful_says_so_by_the_clubs_own_limits(cast, as_):
    feed = label(cast, "Heath 12-0-9", parts={"N_total": 12})
    asked = {"greens": cast.green.pk, "label": feed.pk, "element": "N", "rate_kg_ha": "18"}
    assert page(as_, cast, "product", **asked).context["answer"].notes == ()
    setting(cast, "feeding.dose.granular_n_kg_ha", 15)
    notes = page(as_, cast, "product", **asked).context["answer"].notes
    assert "above 15 kg N/ha say that it is meant" in notes[0]


def test_a_nutrient_that_the_label_does_not_print_is_refused_beside_the_product(cast, as_):
    feed = label(cast, "Heath 12-0-9", parts={"N_total": 12})
    answer = page(as_, cast, "product", greens=cast.green.pk, label=feed.pk, element="Fe", rate_kg_ha="2")
    assert sentences(answer) == ["The label of Heath 12-0-9 prints no Fe; choose another product."]


def test_a_hopper_is_filled_so_often(cast, as_):
    feed = label(cast, "Heath 12-0-9", parts={"N_total": 12})
    answer = page(
        as_, cast, "product", area_m2="5000", label=feed.pk, element="N", rate_kg_ha="6", hopper_kg="10"
    )
    # By hand: 25 kg from a hopper of 10
    assert figures(answer)["Hoppers"] == "2 full, then 5 kg"


def test_sand_by_mass_and_by_depth(cast, as_):
    by_mass = page(as_, cast, "sand", greens=cast.green.pk, way="kg_m2", how_much="0.8")
    # By hand: 0.8 kg/m² on 450 m² are 360 kg, 0.5 mm and 0.225 m³ at 1.6 t/m³
    assert figures(by_mass) == {
        "Sand in all": "360 kg", "Volume": "0.23 m³", "Rate": "0.8 kg/m², 0.5 mm deep",
    }  # fmt: skip
    assert figures(page(as_, cast, "sand", greens=cast.green.pk, way="mm", how_much="0.5")) == figures(
        by_mass
    )
    assert by_mass.context["answer"].notes == ("Seventh: 0.8 kg/m² this year with this pass.",)


def test_the_clubs_own_bulk_density_counts(cast, as_):
    setting(cast, "sand.bulk_density_t_m3", 1.5)
    answer = page(as_, cast, "sand", greens=cast.green.pk, way="mm", how_much="1")
    assert figures(answer)["Rate"] == "1.5 kg/m², 1 mm deep"


def test_a_season_over_the_usual_is_said_of_the_green(cast, as_, second):
    setting(cast, "dressing.season_high_kg_m2", 3)
    answer = page(as_, cast, "sand", greens=[cast.green.pk, second.pk], way="kg_m2", how_much="3.2")
    assert answer.context["answer"].notes == (
        "3.2 kg/m² at once is hard to work in; split it.",
        "With this the season stands at 3.2 kg/m², over the usual 3 kg/m².",
        "Seventh: 3.2 kg/m² this year with this pass.",
        "Ninth: 3.2 kg/m² this year with this pass.",
    )


def test_a_sand_is_held_against_the_rootzone(cast, as_):
    grading = [[2, 100], [1, 98], [0.5, 70], [0.25, 12], [0.15, 2]]
    mix = Material.objects.create(club=cast.club, kind=MaterialKind.ROOTZONE, name="Mix", grading=grading)
    Layer.objects.create(establishment=cast.establishment, kind=LayerKind.ROOTZONE, material=mix)
    loam = Material.objects.create(
        club=cast.club,
        kind=MaterialKind.SAND,
        name="Pit sand",
        grading=[[2, 100], [1, 99], [0.5, 90], [0.15, 40]],
    )
    sand = label(cast, "Pit sand", ProductKind.SAND, material=loam, bulk_density_t_m3=Decimal("1.5"))
    answer = page(as_, cast, "sand", greens=cast.green.pk, way="mm", how_much="1", label=sand.pk)
    assert any(
        note.startswith("Pit sand does not suit the rootzone of Seventh.")
        for note in answer.context["answer"].notes
    )


def test_a_limy_sand_is_warned_of_on_bent_and_remembered_once_it_lies_there(cast, as_):
    shells = Material.objects.create(
        club=cast.club, kind=MaterialKind.SAND, name="Shell sand", carbonate_percent=14
    )
    sand = label(cast, "Shell sand", ProductKind.SAND, material=shells, bulk_density_t_m3=Decimal("1.5"))
    answer = page(as_, cast, "sand", greens=cast.green.pk, way="mm", how_much="1", label=sand.pk)
    warning = "Shell sand is limy, 14 % calcium carbonate: on the bent of Seventh it favours take-all."
    assert warning in answer.context["answer"].notes
    assert suits.limes_of(cast.establishment) == []
    logged(cast, "dressing", products=[(sand, 450_000)])
    assert suits.limes_of(cast.establishment) == [("Shell sand", 14.0)]


def test_a_spreader_that_delivers_too_much(cast, as_):
    answer = page(
        as_,
        cast,
        "spreader",
        wanted_g_m2="30",
        run_m="10",
        swath_m="2",
        pans_g="9 10 11 10",
        pan_area_m2="0.25",
    )
    # By hand: 10 g in pans of 0.25 m² are 40 g/m²; 30 wanted is 0.75 times as much; 20 m² want 600 g
    assert figures(answer) == {
        "It delivers": "40 g/m²",
        "Wanted": "30 g/m²",
        "Should fall on the run": "600 g",
    }
    assert answer.context["answer"].notes == (
        "That is too much; close it until it delivers 0.75 times as much, and catch again.",
        "Unevenness across the pans 7 %, at most 20 % wanted.",
    )


def test_a_sprayer_and_its_worn_nozzle(cast, as_):
    answer = page(
        as_, cast, "sprayer", caught_ml="400 400 400 480", seconds="30", spacing_m="0.5", run_m="50",
        run_seconds="36", wanted_l_ha="400",
    )  # fmt: skip
    # By hand: 420 ml in 30 s are 0.84 l/min; at 5 km/h and 0.5 m 600 × 0.84 ÷ 2.5 = 201.6 l/ha
    assert figures(answer) == {"It puts out": "202 l/ha", "Speed": "5 km/h", "A nozzle gives": "0.84 l/min"}
    assert answer.context["answer"].notes == (
        "Off the mean: nozzle 4, counted as written. Clean or change, then catch again.",
        "At 2.5 km/h it would put out 400 l/ha.",
    )


def test_a_soil_test_of_one_extractant_and_its_requirement(cast, as_):
    asked = {
        "element": "K", "use_kg_ha": "50", "soil_test_ppm": "40", "depth_mm": "100",
        "bulk_density_kg_m3": "1500",
    }  # fmt: skip
    answer = page(as_, cast, "soil", extractant="mehlich_3", **asked)
    # 5 g/m² of use, 3 ppm over the minimum of 37: 4.55 g/m² (row of the sheet)
    assert figures(answer)["K to apply this year"] == "45.5 kg/ha"
    refused = sentences(page(as_, cast, "soil", extractant="olsen", **asked))
    assert "figures of two extractants cannot be compared" in refused[0]


def test_coring_of_a_green(cast, as_):
    pattern = {"tine_mm": "12", "spacing_mm": "50", "row_spacing_mm": "50", "depth_mm": "100"}
    answer = page(as_, cast, "coring", greens=cast.green.pk, **pattern)
    assert figures(answer) == {
        "Sand to fill the holes": "3.26 t",
        "Surface opened": "4.5 %",
        "Cores to carry off": "2.04 m³",
        "Holes": "400 on each m²",
    }


def test_water_to_a_target(cast, as_):
    asked = {"moisture_percent": "12", "target_percent": "18", "depth_mm": "100", "evenness_percent": "75"}
    answer = page(as_, cast, "water", greens=cast.green.pk, output_mm_h="12", **asked)
    # By hand: 6 % of 100 mm are 6 mm, 8 at 75 %; 3.6 m³ on 450 m²; 40 minutes at 12 mm/h
    assert figures(answer) == {
        "Put on": "8 mm", "In all": "3.6 m³ of water", "The roots get": "6 mm", "Heads run": "40 min",
    }  # fmt: skip


def test_evenness_drain_seed_and_clippings(cast, as_):
    even = page(as_, cast, "even", catch_ml="20 22 18 24 10 26 20 20")
    assert figures(even)["Lowest quarter"] == "70 %"
    drain = page(as_, cast, "drain", bore_mm="80", fall_percent="0.5", drained_m2="150", rain_mm_h="25")
    assert figures(drain)["The pipe"] == "carries it"
    rough = {"bore_mm": "80", "fall_percent": "0.5", "drained_m2": "150", "rain_mm_h": "25"}
    setting(cast, "drain.roughness", 0.03)
    assert figures(page(as_, cast, "drain", **rough))["The pipe"] == "does not carry it"
    seed = page(
        as_,
        cast,
        "seed",
        greens=cast.green.pk,
        live_rate_g_m2="8",
        purity_percent="98",
        germination_percent="90",
    )
    assert figures(seed) == {"Seed in all": "4.08 kg", "Rate": "9.1 g/m²", "Pure and alive": "88.2 %"}
    boxes = page(as_, cast, "clippings", clippings_ml_m2="50", leaf_n_percent="4")
    assert figures(boxes)["Nitrogen carried off"] == "1.2 kg/ha"
    setting(cast, "mowing.dry_matter_g_ml", 0.12)
    boxes = page(as_, cast, "clippings", clippings_ml_m2="50", leaf_n_percent="4")
    assert figures(boxes)["Nitrogen carried off"] == "2.4 kg/ha"


@pytest.mark.parametrize("key", SUMS)
def test_every_sum_opens_prefilled_and_says_what_is_missing_when_sent_empty(cast, as_, key):
    assert page(as_, cast, key).context["answer"] is None
    empty = page(as_, cast, key, greens=[])
    assert empty.context["answer"] is None
    assert sentences(empty)


def test_the_greens_of_the_address_are_ticked(cast, as_, second):
    path = f"/clubs/{cast.club.slug}/sums/sand/"
    form = as_("staff").get(path, {"greens": second.pk}).context["form"]
    assert form.initial["greens"] == [second.pk]
    assert as_("staff").get(path).context["form"].initial["greens"] == [cast.green.pk, second.pk]


def test_a_green_of_another_club_cannot_be_asked_for(cast, as_):
    answer = page(as_, cast, "sand", greens=cast.other_green.pk, way="mm", how_much="1")
    assert answer.context["answer"] is None
    assert len(sentences(answer)) == 1


def test_a_green_without_an_area_is_said(cast, as_):
    Green.objects.create(club=cast.club, name="Twelfth", position=12)
    bare = Green.objects.get(name="Twelfth")
    answer = page(as_, cast, "sand", greens=bare.pk, way="mm", how_much="1")
    assert sentences(answer) == ["The area of Twelfth is not known; measure it, or type an area."]
    assert figures(page(as_, cast, "sand", greens=bare.pk, area_m2="450", way="mm", how_much="1"))


def test_a_sum_that_nobody_knows_does_not_exist(cast, as_):
    assert as_("staff").get(f"/clubs/{cast.club.slug}/sums/horoscope/").status_code == 404


def test_the_list_leads_to_every_sum_and_to_how_they_are_checked(cast, as_):
    found = as_("committee").get(f"/clubs/{cast.club.slug}/sums/").content.decode()
    for key in (*SUMS, "checked"):
        assert f"/clubs/{cast.club.slug}/sums/{key}/" in found
