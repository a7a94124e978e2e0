"""Advice from outside, dated."""

from datetime import date

import pytest
from django.urls import reverse

from greens.models import Advice
from growin.actions.programme import issue_programme
from growin.evidence import judged
from tests.cast import laid_green

pytestmark = pytest.mark.django_db


def given(cast, client, **form):
    address = reverse("advice_new", args=[cast.club.slug, cast.green.pk])
    return client.post(address, {"on": "2026-04-15", "words": "Hold at 6 mm for another fortnight."} | form)


def test_the_advisers_words_stand_in_the_record_with_their_day(cast, as_):
    given(cast, as_("adviser"))
    row = Advice.objects.get()
    assert (row.green, row.by, row.on) == (cast.green, cast.adviser, date(2026, 4, 15))
    page = as_("committee").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "Hold at 6 mm for another fortnight." in page
    assert "Bram Hazel, Wed 15 April 2026" in page


@pytest.mark.parametrize("role", ["head", "staff", "committee"])
def test_only_an_adviser_gives_advice(cast, as_, role):
    assert given(cast, as_(role)).status_code == 403
    assert not Advice.objects.exists()


@pytest.mark.parametrize("form", [{"on": "2026-04-17"}, {"words": ""}, {"words": "x" * 5000}])
def test_advice_that_cannot_be_is_refused(cast, as_, form):
    assert given(cast, as_("adviser"), **form).status_code == 200
    assert not Advice.objects.exists()


def test_what_an_adviser_writes_runs_nothing(cast, as_):
    given(cast, as_("adviser"), words="<script>alert(1)</script>")
    page = as_("head").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "<script>alert" not in page


def laid_in_growth(cast):
    """Washed turf laid on 1 April 2026: eight weeks end on 27 May, four on 29 April."""
    return laid_green(
        cast.club,
        "Ninth",
        kind="turf_washed",
        works_started_on=date(2026, 3, 2),
        established_on=date(2026, 4, 1),
    )


def said_of_the_gate(cast, client, rebuilt, **form):
    address = reverse("advice_new", args=[cast.club.slug, rebuilt.green.pk])
    return client.post(address, {"on": "2026-04-16", "words": "The joints have knitted."} | form)


def gate_day(cast, rebuilt, on=None):
    evidence = judged(rebuilt, on or cast.today).evidence
    return evidence.gate_on, evidence.gate_words


def test_the_advisers_tick_brings_the_shorter_gate_of_turf_laid_in_growth(cast, as_):
    rebuilt = laid_in_growth(cast)
    assert gate_day(cast, rebuilt) == (date(2026, 5, 27), "at least 8 weeks down")
    said_of_the_gate(cast, as_("adviser"), rebuilt, on_gate="on")
    assert gate_day(cast, rebuilt) == (date(2026, 4, 29), "at least 4 weeks down, as the adviser agrees")
    assert gate_day(cast, rebuilt, date(2026, 4, 15)) == (date(2026, 5, 27), "at least 8 weeks down")


def test_the_programme_is_drawn_to_the_gate_that_was_agreed(cast, as_):
    rebuilt = laid_in_growth(cast)
    said_of_the_gate(cast, as_("adviser"), rebuilt, on_gate="on")
    drawn = issue_programme(establishment=rebuilt, by=cast.head, on=cast.today)
    assert drawn.steps.get(key="gate-opening").likely == date(2026, 4, 29)


def test_advice_without_the_tick_says_nothing_of_the_gate(cast, as_):
    rebuilt = laid_in_growth(cast)
    said_of_the_gate(cast, as_("adviser"), rebuilt, on_gate="on")
    said_of_the_gate(cast, as_("adviser"), rebuilt, words="Feed lightly.")
    assert gate_day(cast, rebuilt)[0] == date(2026, 4, 29)


def test_an_adviser_may_change_their_mind_on_the_gate(cast, as_):
    rebuilt = laid_in_growth(cast)
    said_of_the_gate(cast, as_("adviser"), rebuilt, on_gate="on")
    page = as_("adviser").get(reverse("advice_new", args=[cast.club.slug, rebuilt.green.pk]))
    assert "I no longer agree to the shorter gate of 4 weeks" in page.content.decode()
    said_of_the_gate(cast, as_("adviser"), rebuilt, on_gate="on", words="It tears at the edge.")
    assert gate_day(cast, rebuilt)[0] == date(2026, 5, 27)
    page = as_("head").get(reverse("record", args=[cast.club.slug, rebuilt.green.pk])).content.decode()
    assert "No longer agrees to the shorter gate." in page


def test_turf_of_autumn_has_no_shorter_gate_to_agree_to(cast, as_):
    page = as_("adviser").get(reverse("advice_new", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "shorter gate" not in page
    given(cast, as_("adviser"), on_gate="on")
    assert Advice.objects.get().agrees_to_shorter_gate is None
    assert gate_day(cast, cast.establishment)[0] == date(2026, 4, 1)
