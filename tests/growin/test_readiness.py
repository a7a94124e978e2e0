"""The readiness page: a committee member understands it in ten seconds."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from greens.models import Advice, Setting
from tests.growin.ripe import make_ready, read

pytestmark = pytest.mark.django_db


def page_of(cast, client, **query):
    return client.get(reverse("readiness", args=[cast.club.slug, cast.green.pk]), query)


def test_every_member_reads_it_and_outsiders_do_not(cast, as_):
    roles = ("head", "staff", "committee", "adviser", "outsider")
    assert [page_of(cast, as_(role)).status_code for role in roles] == [200, 200, 200, 200, 404]


def test_a_ready_green_says_so_in_one_sentence(cast, as_):
    make_ready(cast)
    page = page_of(cast, as_("committee")).content.decode()
    assert "state--ready state--large" in page
    assert "All 10 bars are met." in page


def test_three_things_hold_an_unready_green_back(cast, as_):
    make_ready(cast, rooting_depth=[20] * 5, lip=[5] * 20, hole=[False] * 3, disease_share=[8])
    page = page_of(cast, as_("committee"))
    assert (
        page.context["known"].sentence
        == "6 of 10 bars met; rooting, holes and ball drops, levels and 1 more not met."
    )
    assert [one.words for one in page.context["known"].verdict.unmet] == [
        "Rooting",
        "Holes and ball drops",
        "Levels",
    ]


def test_not_known_says_what_would_settle_it(cast, as_):
    make_ready(cast, rooting_depth=[62, 55, 71])
    page = page_of(cast, as_("committee")).content.decode()
    assert "state--not-known state--large" in page
    assert "Take 2 more: 2 cores." in page
    assert "Next inspection: today." in page


def test_a_past_day_shows_what_was_known_then(cast, as_):
    make_ready(cast)
    read(cast, "rooting_depth", [20] * 5, cast.today - timedelta(days=2))
    page = page_of(cast, as_("committee"), on="2026-04-14")
    assert page.context["known"].as_of == date(2026, 4, 14)
    assert page.context["known"].verdict.state == "not ready"


@pytest.mark.parametrize("on", ["2027-01-01", "soon", "", "0000-00-00"])
def test_a_day_that_cannot_be_shows_today(cast, as_, on):
    page = page_of(cast, as_("committee"), on=on)
    assert (page.status_code, page.context["known"].as_of) == (200, cast.today)


def test_before_the_works_there_is_nothing_to_judge(cast, as_):
    page = page_of(cast, as_("committee"), on="2025-01-01").content.decode()
    assert "No rebuild of Seventh was under way on Wed 1 January 2025" in page


def test_a_loosened_threshold_stands_beneath_with_who_and_why(cast, as_):
    key = "criterion.rooting_turf.depth_mm"
    changes = [(40, "shallow rootzone over chalk"), (45, "deeper after all")]
    for value, why in changes:
        Setting.objects.create(
            club=cast.club, key=key, value=value, by=cast.head, why=why, in_force_from=cast.today
        )
    page = page_of(cast, as_("committee"))
    assert [(one.before, one.row.value, one.is_looser) for one in page.context["known"].changes] == [
        (40, 45, False),
        (50, 40, True),
    ]
    assert "(loosened)" in page.content.decode()
    assert "Isla Rowan: shallow rootzone over chalk" in page.content.decode()


def test_the_advisers_words_stand_beside(cast, as_):
    Advice.objects.create(green=cast.green, on=cast.today, words="Wait for the roots.", by=cast.adviser)
    assert "Wait for the roots." in page_of(cast, as_("committee")).content.decode()


def test_the_page_costs_the_same_however_long_the_history(cast, as_, django_assert_num_queries):
    client = as_("committee")
    page_of(cast, client)
    with django_assert_num_queries(17):
        page_of(cast, client)
    make_ready(cast)
    make_ready(cast, cast.today - timedelta(days=20))
    with django_assert_num_queries(17):
        page_of(cast, client)
