"""A green in play on its pages: the year to come is offered, drawn and kept; what was found on it."""

from datetime import date, timedelta

import pytest

from growin.actions.answer import tick
from growin.actions.programme import issue_programme
from growin.agronomy.programme import is_of_a_year
from growin.queries import budget, redraw, watched
from growin.queries.programme import steps
from growin.queries.run_out import run_out
from tests.entries import at, logged
from tests.growin.ripe import read
from tests.growin.test_decision import opened

pytestmark = pytest.mark.django_db
OPENED = date(2026, 4, 20)
LATER = date(2027, 3, 1)


def page(cast, client, name: str, *args) -> str:
    return client.get(at(cast, name, *args)).content.decode()


@pytest.fixture
def in_play(cast, settings):
    """Drawn in autumn, opened in April; today is a Monday in the next spring."""
    issue_programme(establishment=cast.establishment, by=cast.head, on=date(2025, 11, 1))
    opened(cast, OPENED)
    settings.FIXED_TODAY = LATER
    return cast


def draw(cast, on: date = LATER):
    return issue_programme(establishment=cast.establishment, by=cast.head, on=on)


def plan(cast, on: date = LATER) -> dict:
    return {one.step.key: one for one in steps(cast.establishment, on)}


def test_a_programme_that_has_run_out_is_offered_to_the_head_greenkeeper(in_play, as_):
    said = f"The programme of {in_play.green} ended on "
    shown = [page(in_play, as_(role), "today") for role in ("head", "staff")]
    assert [said in one for one in shown] == [True, False]
    again = redraw.of(in_play.establishment, LATER)
    reasons = {reason for row in again.new for reason in row.reasons if is_of_a_year(row.step.key)}
    assert (reasons, min(row.step.latest for row in again.new) >= LATER) == ({"the year to come"}, True)
    draw(in_play)
    assert run_out(in_play.club, [in_play.establishment], LATER) == []


def test_nothing_is_offered_before_the_green_is_open(cast):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    assert run_out(cast.club, [cast.establishment], LATER) == []


def test_a_year_that_is_drawn_asks_nothing_of_the_past_and_stands_by_month(in_play, as_):
    draw(in_play)
    late = [key for key, one in plan(in_play).items() if is_of_a_year(key) and one.is_late]
    shown = page(in_play, as_("staff"), "programme", in_play.green.pk)
    assert (late, "Earlier months" in shown, "May 2027" in shown, "usual in a year in play" in shown) == (
        [], True, True, True,
    )  # fmt: skip
    assert "Walk the green for microdochium patch" in page(in_play, as_("staff"), "today")


def test_answers_and_what_lies_behind_stay_through_a_later_version(in_play, settings):
    draw(in_play)
    key = "irrigation_check-2027-03"
    tick(establishment=in_play.establishment, key=key, by=in_play.head, on=LATER)
    before = plan(in_play)
    later = settings.FIXED_TODAY = LATER + timedelta(days=61)
    draw(in_play, later)
    after = plan(in_play, later)
    assert set(before) <= set(after)
    assert after[key].state == "done"
    assert {one: after[one].step.likely for one in before} == {one: before[one].step.likely for one in before}


def test_the_planned_rest_of_the_budget_is_that_of_the_year_in_play(in_play):
    """Fescue/bent in Britain: 50–90 kg N/ha a year (common practice)."""
    draw(in_play)
    known = budget.of_rebuild(in_play.establishment, "N", LATER)
    assert (known.band, 50 <= known.to_come <= 90) == ((50, 90), True)


def test_what_was_found_is_counted_by_kind_with_its_last_day_and_share(in_play, as_):
    for days, what, share in (
        (100, "microdochium", 3),
        (40, "microdochium", 1),
        (30, "moss", None),
        (9, "worms", 5),
    ):
        details = {"what": what} | ({"share_percent": share} if share else {})
        logged(in_play, "watch", on=LATER - timedelta(days=days), details=details)
    told = watched.of_green(in_play.green, LATER).found
    assert [(one.words, one.count, one.last, one.share_percent, one.most_percent) for one in told] == [
        ("moss", 1, LATER - timedelta(days=30), None, None),
        ("microdochium patch", 2, LATER - timedelta(days=40), 1, 3),
    ]
    shown = page(in_play, as_("committee"), "years", in_play.green.pk)
    assert ("Disease, dry patch and moss" in shown, "Bent on new sand" in shown) == (True, True)


def test_the_face_stands_year_by_year(in_play):
    read(
        in_play,
        "face_crossed",
        [True, True, False, False, False],
        date(2026, 4, 10),
        protocol={"layer": "thin"},
    )
    read(in_play, "face_crossed", [True] * 5, date(2027, 2, 20))
    faces = watched.of_green(in_play.green, LATER).faces
    assert [(one.year, one.crossed, one.cores, one.layer) for one in faces] == [
        (2027, 5, 5, ""),
        (2026, 2, 5, "a thin layer"),
    ]
