"""The day's page: what is due on every green, late steps first, one tap a task."""

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from greens.actions.diary import take_back
from greens.models import DayState, WeatherDay
from growin.actions.answer import not_done, tick
from growin.actions.decision import decide
from growin.actions.programme import add_step, issue_programme
from growin.queries import programme as queries
from tests.cast import laid_green
from tests.entries import at, label, logged

pytestmark = pytest.mark.django_db
SINCE = date(2026, 3, 1)


@pytest.fixture
def drawn(cast):
    """The programme was drawn on 1 March: what came before was asked of nobody."""
    return issue_programme(establishment=cast.establishment, by=cast.head, on=SINCE)


def due(cast, on) -> dict[str, str]:
    return {one.step.key: one.state for one in queries.due(cast.club, on)}


def page(cast, client) -> str:
    return client.get(reverse("today", args=[cast.club.slug])).content.decode()


def test_nothing_is_asked_for_from_before_the_first_programme(cast, drawn):
    asked = due(cast, SINCE)
    assert "walk-2026-W09" in asked
    assert not {"fence-on", "joint_repair-01", "water-week-01"} & set(asked)


def test_late_steps_stand_first(cast, drawn):
    rows = queries.due(cast.club, date(2026, 3, 25))
    late = [one.is_late for one in rows]
    assert late == sorted(late, reverse=True)
    assert {"irrigation_check-spring", "drain_check-04"} <= {one.step.key for one in rows if one.is_late}


def test_only_the_newest_of_a_round_is_asked(cast, drawn):
    asked = due(cast, cast.today)
    assert [key for key in asked if key.startswith("walk")] == ["walk-2026-W16"]
    assert [key for key in asked if key.startswith("reading-lip")] == ["reading-lip-03"]
    assert queries.step(cast.establishment, "walk-2026-W15", cast.today).state == "not answered"


def test_of_the_heights_only_the_next_one_down_is_asked(cast, drawn):
    assert [key for key in due(cast, cast.today) if key.startswith("cut")] == ["cut-ladder-7.0"]
    tick(establishment=cast.establishment, key="cut-ladder-7.0", by=cast.staff, on=cast.today)
    assert [key for key in due(cast, cast.today) if key.startswith("cut")] == ["cut-ladder-6.0"]


def test_an_answered_step_is_not_asked_again(cast, drawn):
    not_done(establishment=cast.establishment, key="feed-02", by=cast.staff, on=cast.today, reason="no feed")
    assert "feed-02" not in due(cast, cast.today)


def test_a_long_day_begins_with_the_way_to_each_green(cast, as_, drawn):
    assert 'aria-label="To a green"' not in page(cast, as_("staff"))
    for name in ("Fourth", "Ninth", "Twelfth"):
        laid_green(cast.club, name)
    shown = page(cast, as_("staff"))
    assert shown.count('href="#green-') == shown.count('id="green-') == 4


def test_a_gate_is_a_day_and_no_task(cast, drawn):
    assert "gate-opening" not in due(cast, date(2026, 4, 1))


def test_steps_by_hand_each_stand_alone(cast, drawn):
    for what in ("Move the ropes", "Count the ball marks"):
        add_step(
            establishment=cast.establishment,
            by=cast.head,
            on=cast.today,
            kind="fence",
            likely=cast.today,
            what=what,
        )
    assert {"hand-01", "hand-02"} <= set(due(cast, cast.today))


def test_another_clubs_steps_are_not_due_here(cast, drawn):
    issue_programme(establishment=cast.other_establishment, by=cast.outsider, on=SINCE)
    assert {one.green for one in queries.due(cast.club, cast.today)} == {cast.green}


def test_the_greens_of_a_club_cost_no_more_queries_than_one(cast, as_, drawn):
    staff = as_("staff")
    page(cast, staff)
    with CaptureQueriesContext(connection) as one:
        page(cast, staff)
    for name in ("Second", "Ninth"):
        green = laid_green(cast.club, name)
        issue_programme(establishment=green, by=cast.head, on=SINCE)
    with CaptureQueriesContext(connection) as three:
        shown = page(cast, staff)
    assert ("Second" in shown, "Ninth" in shown) == (True, True)
    assert len(three) == len(one)


def test_what_is_due_costs_three_queries(cast, drawn, django_assert_num_queries):
    with django_assert_num_queries(3):
        queries.due(cast.club, cast.today)


def test_staff_have_the_taps_and_the_committee_reads(cast, as_, drawn):
    taps = ("Done as planned", "Not done: weather", "Put off", "Walked it, all well", "Log work")
    staff, committee, adviser = (page(cast, as_(role)) for role in ("staff", "committee", "adviser"))
    assert [tap for tap in taps if tap not in staff] == []
    assert [tap for tap in taps if tap in committee or tap in adviser] == []
    assert "Second feed, the fuller one" in committee


def test_the_walk_is_one_tap(cast, as_, drawn):
    staff = as_("staff")
    answer = staff.post(reverse("walked", args=[cast.club.slug, cast.green.pk]), follow=True).content.decode()
    assert "Seventh: walked, all well." in answer
    assert "Walked today" in answer
    assert "Walked it, all well" not in answer


def test_a_frosty_night_says_so_in_full(cast, as_, drawn):
    assert "is not entered yet" in page(cast, as_("staff"))
    WeatherDay.objects.create(club=cast.club, on=cast.today, min_c="-1.5", max_c="8.0", rain_mm="0.0")
    shown = page(cast, as_("staff"))
    assert "The night went down to -1.5 °C: keep feet, wheels and fertiliser off" in shown


def test_a_green_in_play_shows_its_state_of_the_day(cast, as_, drawn):
    cast.establishment.decisions.create(
        pattern="limited",
        from_day=cast.today,
        made_on=cast.today,
        verdict="met",
        evidence={},
        by=cast.committee,
    )
    state_of_day = reverse("day_states", args=[cast.club.slug])
    staff = page(cast, as_("staff"))
    assert "Limited play, state of the day not entered" in staff
    assert state_of_day in staff
    DayState.objects.create(green=cast.green, on=cast.today, state="frosted", by=cast.head)
    committee = page(cast, as_("committee"))
    assert "Frosted today" in committee
    assert state_of_day not in committee


def test_a_club_without_a_rebuild_is_told_where_to_begin(cast, as_):
    cast.establishment.delete()
    assert "No green is being rebuilt yet." in page(cast, as_("staff"))


def test_late_is_said_in_a_word(cast, as_, drawn):
    assert "state--overdue" in page(cast, as_("staff"))


def fed_near_water(cast, on):
    cast.green.distance_to_water_m = 1
    cast.green.save()
    quick = label(cast, lines={"N_total": 12}, from_day=on)
    return logged(cast, "feed", on=on, products=[(quick, 1000)])


def test_the_head_greenkeeper_is_told_for_a_fortnight_what_went_over_a_limit(cast, as_):
    entry = fed_near_water(cast, cast.today - timedelta(days=14))
    said = "Water lies 1 m from Seventh: nothing is fed within 3 m of it."
    shown = page(cast, as_("head"))
    assert "Over a limit: fed Thu 2 April" in shown
    assert said in shown
    assert at(cast, "entry", entry.pk) in shown
    assert "Over a limit" not in page(cast, as_("staff"))
    take_back(entry=entry, by=cast.head)
    assert "Over a limit" not in page(cast, as_("head"))


def test_what_went_over_a_limit_before_the_fortnight_is_not_told_again(cast, as_):
    fed_near_water(cast, cast.today - timedelta(days=15))
    assert "Over a limit" not in page(cast, as_("head"))


def test_the_hole_is_not_asked_to_be_moved_before_the_green_is_open(cast, as_, drawn, settings):
    opening = drawn.steps.get(key="inspection-opening")
    settings.FIXED_TODAY = opening.likely
    shown = page(cast, as_("staff"))
    assert opening.what in shown
    assert "Move the hole every day in play" not in shown
    decide(
        establishment=cast.establishment,
        by=cast.committee,
        from_day=opening.likely,
        pattern="full",
        meeting_on=opening.likely,
        present="Maeve Thorn",
        stop_rule="Close it when it tears.",
        reason="The club match.",
    )
    assert "Move the hole every day in play" in page(cast, as_("staff"))


def test_the_earliest_day_of_opening_passes_and_is_never_overdue(cast, drawn):
    states = {one.step.key: one.state for one in queries.steps(cast.establishment, date(2026, 4, 30))}
    assert states["gate-opening"] == "passed"
