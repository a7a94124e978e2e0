"""Layers and drains as they were built, and the record page that judges them."""

from datetime import date

import pytest
from django.urls import reverse

from greens.actions.advice import give_advice
from greens.actions.area import measure_area
from greens.actions.build import set_drain, set_layer
from greens.actions.defect import note_defect
from greens.actions.irrigation import set_irrigation
from greens.actions.material import keep_material
from greens.actions.turf import set_turf
from greens.choices import DrainKind, LayerKind, MaterialKind
from greens.models import Drain, Layer, TrailLine
from greens.queries import build as queries
from greens.queries import record

pytestmark = pytest.mark.django_db

# A rootzone inside the USGA recommendation (grading and physics), as % passing each sieve.
GOOD_MIX = [[3.4, 100], [2.0, 98], [1.0, 92], [0.5, 66], [0.25, 19], [0.15, 6], [0.05, 3], [0.002, 1]]
GOOD_PHYSICS = {
    "total_porosity_percent": 42,
    "air_filled_percent": 22,
    "capillary_percent": 20,
    "organic_matter_percent": 2.5,
    "ksat_mm_h": 320,
}
PEA_GRAVEL = [[9.5, 100], [8.0, 90], [6.3, 60], [4.75, 25], [3.35, 5], [2.0, 0]]


def built_to_the_letter(cast):
    """Every row of the USGA recommendation kept (2004/2018), without a blinding layer."""
    on, by, establishment = date(2025, 9, 20), cast.head, cast.establishment
    mix = keep_material(
        club=cast.club, by=by, kind=MaterialKind.ROOTZONE, name="80/20", grading=GOOD_MIX, **GOOD_PHYSICS
    )
    gravel = keep_material(
        club=cast.club, by=by, kind=MaterialKind.GRAVEL, name="Pea gravel", grading=PEA_GRAVEL
    )
    for kind, depths, material in (
        (LayerKind.EXCAVATION, (405, 410, 412), None),
        (LayerKind.GRAVEL, (104, 106, 102), gravel),
        (LayerKind.ROOTZONE, (301, 298, 305), mix),
    ):
        set_layer(
            establishment=establishment, by=by, kind=kind, depths_mm=depths, material=material, levelled_on=on
        )
    trench = {"trench_width_mm": 150, "trench_depth_mm": 200, "bedding_mm": 25, "fall_percent": 0.6}
    set_drain(
        establishment=establishment, by=by, kind=DrainKind.MAIN, pipe_mm=100, is_perforated=True, **trench
    )
    set_drain(
        establishment=establishment,
        by=by,
        kind=DrainKind.LATERAL,
        spacing_m=4.5,
        pipe_mm=80,
        is_perforated=True,
        reaches_edge=True,
        **trench,
    )
    set_irrigation(establishment=establishment, by=by, live_on=on, audited_on=on, hose_ready_on=on)
    soil = keep_material(
        club=cast.club, by=by, kind=MaterialKind.TURF_SOIL, name="Sandy turf", grading=GOOD_MIX
    )
    set_turf(establishment=establishment, by=by, source="Hollin Bank", cut_thickness_mm=25, soil=soil)
    return establishment


def judged(cast):
    return queries.judged(record.with_build(cast.club, cast.establishment.pk), cast.today)


def test_a_build_to_the_recommendation_has_nothing_out_and_nothing_unknown(cast):
    """USGA, Recommendations for a Method of Putting Green Construction, row by row."""
    built_to_the_letter(cast)
    found = judged(cast)
    assert ([row.words for row in found.out], [row.words for row in found.not_known]) == ([], [])


@pytest.mark.parametrize(
    ("change", "out"),
    [
        ({"kind": LayerKind.ROOTZONE, "depths_mm": (300, 262)}, ["rootzone_depth"]),  # 300 ± 25 mm
        ({"kind": LayerKind.ROOTZONE, "depths_mm": (300, 331)}, ["rootzone_depth"]),
        ({"kind": LayerKind.GRAVEL, "depths_mm": (96, 104)}, ["gravel_depth"]),  # 100 mm at least
        ({"kind": LayerKind.EXCAVATION, "depths_mm": (380, 405)}, ["excavation"]),  # 400 mm
    ],
)
def test_one_level_outside_puts_its_row_out_and_no_other(cast, change, out):
    establishment = built_to_the_letter(cast)
    kept = establishment.layers.get(kind=change["kind"])
    set_layer(establishment=establishment, by=cast.head, material=kept.material, **change)
    assert [row.item for row in judged(cast).out] == out


@pytest.mark.parametrize(
    ("kind", "change", "out"),
    [
        (DrainKind.LATERAL, {"spacing_m": 6}, ["laterals"]),  # 5 m at most
        (DrainKind.LATERAL, {"fall_percent": 0.3}, ["fall"]),  # 0.5 %, the least of both counts
        (DrainKind.LATERAL, {"trench_depth_mm": 150}, ["trench_depth"]),  # 200 mm
        (DrainKind.LATERAL, {"reaches_edge": False}, ["reaches_edge"]),
        (DrainKind.MAIN, {"is_perforated": False}, ["perforated"]),
    ],
)
def test_a_drain_outside_puts_its_row_out_and_no_other(cast, kind, change, out):
    establishment = built_to_the_letter(cast)
    set_drain(establishment=establishment, by=cast.head, kind=kind, **change)
    assert [row.item for row in judged(cast).out] == out


def test_levels_are_kept_one_by_one_from_a_pasted_list(cast, as_):
    form = {"rootzone_depths_mm": "300, 305 298\n301;302", "rootzone_levelled_on": "2025-09-20"}
    as_("head").post(reverse("build", args=[cast.club.slug, cast.establishment.pk]), form)
    layer = Layer.objects.get()
    assert (layer.kind, layer.depths_mm) == ("rootzone", [300, 305, 298, 301, 302])
    assert TrailLine.objects.get(noun="layer").changes == {
        "depths_mm": [None, [300, 305, 298, 301, 302]],
        "levelled_on": [None, "2025-09-20"],
    }


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({"gravel_depths_mm": "100 -5 98"}, "-5 mm cannot be right; a level reading should lie between"),
        ({"gravel_depths_mm": "100 l05"}, "‘l05’ is not a figure in mm"),
        ({"gravel_depths_mm": "30cm"}, "‘30cm’ is not a figure in mm"),
        ({"gravel_depths_mm": "100", "gravel_levelled_on": "2025-09-01"}, "the first day possible here"),
        ({"gravel_depths_mm": "100", "gravel_levelled_on": "2026-04-17"}, "lies in the future"),
        ({"gravel_placing": "x" * 5000}, "at most 200 characters (it has 5000)"),
        ({"gravel_depths_mm": "1" * 9000}, "at most 8000 characters (it has 9000)"),
    ],
)
def test_a_layer_that_cannot_be_is_refused_and_nothing_is_half_kept(cast, as_, form, sentence):
    whole = {"rootzone_depths_mm": "300 300", **form}
    page = as_("head").post(reverse("build", args=[cast.club.slug, cast.establishment.pk]), whole)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert not Layer.objects.exists()


def test_another_clubs_material_cannot_be_chosen(cast, as_):
    theirs = keep_material(
        club=cast.other_green.club, by=cast.outsider, kind=MaterialKind.ROOTZONE, name="Their mix"
    )
    form = {"rootzone_depths_mm": "300", "rootzone_material": theirs.pk}
    page = as_("head").post(reverse("build", args=[cast.club.slug, cast.establishment.pk]), form)
    assert "Select a valid choice" in page.content.decode()
    assert not Layer.objects.exists()


def test_another_clubs_rebuild_does_not_exist_here(cast, as_):
    for name in ("rebuild", "build", "drains", "turf", "seed_mix", "irrigation", "defect_new", "section"):
        address = reverse(name, args=[cast.club.slug, cast.other_establishment.pk])
        assert as_("head").get(address).status_code == 404


def test_drains_keep_yes_no_and_not_known_apart(cast, as_):
    form = {"lateral_spacing_m": "4.5", "lateral_is_perforated": "yes", "lateral_reaches_edge": ""}
    as_("head").post(reverse("drains", args=[cast.club.slug, cast.establishment.pk]), form)
    drain = Drain.objects.get()
    assert (drain.kind, float(drain.spacing_m), drain.is_perforated, drain.reaches_edge) == (
        "lateral",
        4.5,
        True,
        None,
    )


def test_the_record_page_says_what_is_out_and_what_it_means(cast, as_):
    establishment = built_to_the_letter(cast)
    set_layer(establishment=establishment, by=cast.head, kind=LayerKind.GRAVEL, depths_mm=(70, 104))
    page = as_("staff").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "70–104 mm at 2 places, 1 of them out" in page
    assert "Water stands longer over thin gravel" in page
    assert "Change the layers" not in page


def test_the_record_page_costs_the_same_for_a_long_record(cast, as_, django_assert_num_queries):
    """Session, person, place in the club, then a fixed number for the record."""
    built_to_the_letter(cast)
    client, address = as_("head"), reverse("record", args=[cast.club.slug, cast.green.pk])
    with django_assert_num_queries(17):
        client.get(address)
    lengthen(cast)
    with django_assert_num_queries(17):
        client.get(address)


def lengthen(cast):

    for number in range(3):
        note_defect(
            establishment=cast.establishment,
            by=cast.head,
            what=f"Low spot {number}",
            found_on=cast.today,
            due_on=cast.today,
        )
        measure_area(green=cast.green, by=cast.head, method="typed", area_m2=450, measured_on=cast.today)
        give_advice(green=cast.green, by=cast.adviser, on=cast.today, words="Wait.")
