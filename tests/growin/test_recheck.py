"""Days 7, 14 and 28 in play stand on Today and on the green's page, from the real first day."""

from datetime import timedelta

import pytest
from django.urls import reverse

from growin.actions.programme import issue_programme
from growin.queries.decision import play_states
from growin.queries.recheck import rechecks
from tests.growin.ripe import read
from tests.growin.test_decision import opened

pytestmark = pytest.mark.django_db
SAID = "Look again, day 7 in play"


def in_play_for(cast, settings, days: int) -> None:
    """Opened today, looked at so many days later."""
    opened(cast, cast.today)
    settings.FIXED_TODAY = cast.today + timedelta(days=days)


def page(cast, client, name: str, *args) -> str:
    return client.get(reverse(name, args=[cast.club.slug, *args])).content.decode()


def test_the_look_stands_on_today_with_a_way_to_the_readings(cast, as_, settings):
    in_play_for(cast, settings, 7)
    shown = {role: page(cast, as_(role), "today") for role in ("staff", "committee")}
    assert [SAID in one for one in shown.values()] == [True, True]
    take = reverse("choose_measure", args=[cast.club.slug, cast.green.pk])
    assert [f'href="{take}">Take the readings' in one for one in shown.values()] == [True, False]


def test_it_goes_once_something_was_read(cast, as_, settings):
    in_play_for(cast, settings, 8)
    read(cast, "lip", [0] * 20, cast.today + timedelta(days=7))
    assert SAID not in page(cast, as_("staff"), "today")


def test_before_it_is_due_only_the_greens_page_names_it(cast, as_, settings):
    in_play_for(cast, settings, 2)
    assert SAID not in page(cast, as_("staff"), "today")
    assert "Looked at again on Thu 23 April, day 7 in play." in page(
        cast, as_("staff"), "green", cast.green.pk
    )


def test_a_late_look_makes_its_green_late(cast, as_, settings):
    in_play_for(cast, settings, 11)
    assert "Overdue" in page(cast, as_("staff"), "today")


def test_the_programmes_own_day_does_not_ask_a_second_time(cast, as_, settings):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    in_play_for(cast, settings, 14)
    assert page(cast, as_("staff"), "today").count("Look again, day") == 1


def test_a_closed_green_is_not_looked_at_again(cast, as_, settings):
    opened(cast, cast.today)
    opened(cast, cast.today + timedelta(days=3), "closed")
    settings.FIXED_TODAY = cast.today + timedelta(days=7)
    assert SAID not in page(cast, as_("staff"), "today")


def test_all_greens_cost_one_query(cast, django_assert_num_queries):
    opened(cast, cast.today)
    plays = play_states(cast.club, cast.today)
    with django_assert_num_queries(1):
        found = rechecks(plays, cast.today)
    assert [one.day for one in found.values()] == [7]
