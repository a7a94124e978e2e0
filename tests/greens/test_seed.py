"""The seed mix and its shares."""

import pytest
from django.urls import reverse

from greens.models import SeedLine
from tests.cast import laid_green

pytestmark = pytest.mark.django_db


def form_of(*shares) -> dict:
    lines = enumerate(shares, start=1)
    return {
        key: value
        for number, share in lines
        for key, value in (
            (f"variety_{number}", f"cultivar {number}"),
            (f"share_percent_{number}", str(share)),
        )
    }


@pytest.fixture
def address(cast) -> str:
    sown = laid_green(cast.club, "Ninth", kind="seed", species="fescue/bent")
    return reverse("seed_mix", args=[cast.club.slug, sown.pk])


def kept() -> list:
    return [(line.variety, float(line.share_percent)) for line in SeedLine.objects.all()]


@pytest.mark.parametrize("shares", [(100,), (60, 40), (33.3, 33.3, 33.3)])
def test_shares_of_100_per_cent_are_kept(cast, as_, address, shares):
    as_("head").post(address, form_of(*shares))
    assert kept() == [(f"cultivar {number}", share) for number, share in enumerate(shares, start=1)]


def test_a_changed_mix_replaces_the_old_one(cast, as_, address):
    as_("head").post(address, form_of(60, 40))
    as_("head").post(address, form_of(100))
    assert kept() == [("cultivar 1", 100)]


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        (form_of(60, 35), "The shares add up to 95 %; they should add up to 100 %."),
        (form_of(60, 60), "The shares add up to 120 %"),
        (form_of(-20, 120), "-20 % cannot be right"),
        ({"variety_1": "bent"}, "How much of the mix is bent?"),
        ({"share_percent_1": "100"}, "Which grass do these figures belong to?"),
        ({"variety_1": "x" * 5000, "share_percent_1": "100"}, "at most 80 characters (it has 5000)"),
    ],
)
def test_a_mix_that_cannot_be_is_refused_with_a_sentence(cast, as_, address, form, sentence):
    as_("head").post(address, form_of(60, 40))
    page = as_("head").post(address, form)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert kept() == [("cultivar 1", 60), ("cultivar 2", 40)]
