"""Turf as a material: grower, grasses, thatch, soil."""

import pytest
from django.urls import reverse

from greens.actions.build import set_layer
from greens.actions.material import keep_material
from greens.choices import LayerKind, MaterialKind
from greens.models import Turf
from greens.queries import build, record

pytestmark = pytest.mark.django_db


def kept(cast, client, **form):
    return client.post(reverse("turf", args=[cast.club.slug, cast.establishment.pk]), form)


def test_the_turf_is_kept_with_its_grasses(cast, as_):
    grasses = "fescue 60 %\nbrowntop bent: 30\nannual meadow-grass (Poa) 10"
    kept(cast, as_("head"), source="Hollin Bank", age_months="14", species_percent=grasses, thatch_mm="6")
    turf = Turf.objects.get()
    assert (turf.source, turf.age_months, turf.thatch_mm) == ("Hollin Bank", 14, 6)
    assert turf.species_percent == [["fescue", 60], ["browntop bent", 30], ["annual meadow-grass (Poa)", 10]]


def test_turf_on_finer_soil_than_the_rootzone_is_out(cast, as_):
    """Turf on soil finer than the rootzone layers on it; common practice."""
    mix = [[2, 100], [0.25, 20], [0.15, 6], [0.05, 2], [0.002, 1]]
    loam = [[2, 100], [0.25, 60], [0.15, 45], [0.05, 25], [0.002, 8]]
    rootzone = keep_material(
        club=cast.club, by=cast.head, kind=MaterialKind.ROOTZONE, name="Mix", grading=mix
    )
    soil = keep_material(club=cast.club, by=cast.head, kind=MaterialKind.TURF_SOIL, name="Loam", grading=loam)
    set_layer(
        establishment=cast.establishment,
        by=cast.head,
        kind=LayerKind.ROOTZONE,
        depths_mm=(300,),
        material=rootzone,
    )
    kept(cast, as_("head"), soil=soil.pk)
    found = build.judged(record.with_build(cast.club, cast.establishment.pk), cast.today)
    assert "turf_soil" in [row.item for row in found.out]


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({"species_percent": "fescue 70\nbent 50"}, "add up to 120 %; they cannot exceed 100 %"),
        ({"species_percent": "fescue"}, "‘fescue’ should be a name and its share"),
        ({"species_percent": "fescue 1.2.3"}, "should be a name and its share"),
        ({"cut_thickness_mm": "20", "thatch_mm": "30"}, "30 mm of thatch cannot lie in turf cut 20 mm thick"),
        ({"lifted_on": "2025-11-01"}, "the latest day possible is Mon 20 October 2025"),
        ({"age_months": "-1"}, "-1 months cannot be right"),
    ],
)
def test_turf_that_cannot_be_is_refused_with_a_sentence(cast, as_, form, sentence):
    page = kept(cast, as_("head"), **form)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert not Turf.objects.exists()


def test_another_clubs_soil_cannot_be_chosen(cast, as_):
    theirs = keep_material(
        club=cast.other_green.club, by=cast.outsider, kind=MaterialKind.TURF_SOIL, name="Their soil"
    )
    assert "Select a valid choice" in kept(cast, as_("head"), soil=theirs.pk).content.decode()
    assert not Turf.objects.exists()
