"""Materials with what the laboratory found."""

import pytest
from django.urls import reverse

from greens.actions.material import keep_material
from greens.choices import MaterialKind
from greens.models import Material

pytestmark = pytest.mark.django_db

MIX = {"kind": "rootzone", "name": "80/20", "given_as": "passing", "ksat_mm_h": "310"}


def kept(cast, client, **form):
    return client.post(reverse("material_new", args=[cast.club.slug]), MIX | form)


@pytest.mark.parametrize(
    "grading",
    [
        "2 97\n1 90\n0.5 62",
        "0.5: 62 %\n1.0: 90 %\n2.0: 97 %",
        "2,0\t97,0\n1\t90\n0,5\t62",
        "2 mm = 97\n1 | 90\n0.5;62",
    ],
)
def test_a_grading_is_read_however_it_is_pasted_and_kept_coarse_to_fine(cast, as_, grading):
    kept(cast, as_("head"), grading=grading)
    assert Material.objects.get().grading == [[2, 97], [1, 90], [0.5, 62]]


def test_per_cent_retained_becomes_per_cent_passing(cast, as_):
    """Cumulative: 3 + 7 + 28 retained leaves 62 passing the 0.5 mm sieve."""
    kept(cast, as_("head"), given_as="retained", grading="2 3\n1 7\n0.5 28")
    assert Material.objects.get().grading == [[2, 97], [1, 90], [0.5, 62]]


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({"grading": "2 97\n1 98.5"}, "never less on a coarser sieve"),
        ({"grading": "2 97\n2 90"}, "at least two different ones"),
        ({"grading": "2 97 90"}, "‘2 97 90’ should be two figures"),
        ({"grading": "2 much"}, "‘much’ is not a figure in %"),
        ({"grading": "2 120"}, "120 % cannot be right"),
        ({"grading": "-2 97"}, "-2 mm cannot be right"),
        ({"given_as": "retained", "grading": "2 60\n1 70"}, "passing, %: -30"),
        ({"total_porosity_percent": "130"}, "130 % cannot be right"),
        (
            {"total_porosity_percent": "40", "air_filled_percent": "30", "capillary_percent": "25"},
            "Air-filled 30 and capillary 25 add up to 55 %, not to the total of 40 %.",
        ),
        ({"ksat_mm_h": "fast"}, "is not a number"),
        ({"name": "x" * 5000}, "at most 80 characters (it has 5000)"),
        ({"tested_on": "2026-12-01"}, "lies in the future"),
    ],
)
def test_what_no_laboratory_finds_is_refused_with_a_sentence(cast, as_, form, sentence):
    page = kept(cast, as_("head"), **form)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert not Material.objects.exists()


def test_a_name_stands_once_under_its_kind(cast, as_):
    kept(cast, as_("head"))
    page = kept(cast, as_("head"), name="80/20")
    assert "already has a material called 80/20 under rootzone" in page.content.decode()
    assert Material.objects.count() == 1


def test_another_clubs_material_does_not_exist_here(cast, as_):
    theirs = keep_material(
        club=cast.other_green.club, by=cast.outsider, kind=MaterialKind.SAND, name="Their sand"
    )
    assert as_("head").get(reverse("material", args=[cast.club.slug, theirs.pk])).status_code == 404
    assert "Their sand" not in as_("head").get(reverse("materials", args=[cast.club.slug])).content.decode()
