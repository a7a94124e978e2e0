"""From rows to the verdict: what a green's record comes to."""

from datetime import date, timedelta

import pytest

from greens.models import Entry, EntryGreen, Establishment, Setting
from growin.evidence import judged, verdict_of, verdicts
from tests.cast import laid_green
from tests.growin.ripe import make_ready, read

pytestmark = pytest.mark.django_db


def logged(cast, kind: str, on: date, details: dict) -> Entry:
    entry = Entry.objects.create(
        club=cast.club, kind=kind, on=on, done_by=cast.staff, logged_by=cast.staff, details=details
    )
    EntryGreen.objects.create(
        entry=entry, green=cast.green, establishment=cast.establishment, kind=kind, on=on
    )
    return entry


def states(verdict) -> dict[str, str]:
    return {one.criterion: one.state for one in verdict.bars}


def test_a_plainly_ready_green_is_ready(cast):
    make_ready(cast)
    verdict = verdict_of(cast.establishment, cast.today)
    assert verdict.state == "ready"
    assert set(states(verdict).values()) == {"met"}
    assert verdict.unmet == ()


def test_the_worst_bar_decides(cast):
    make_ready(cast, rooting_depth=[62, 40, 71, 31, 66])
    verdict = verdict_of(cast.establishment, cast.today)
    assert verdict.state == "not ready"
    assert [one.criterion for one in verdict.unmet] == ["rooting_turf"]
    assert (
        "White roots 50 mm below the turf/rootzone face in 3 of 5 cores; 4 of 5 wanted."
        in verdict.unmet[0].sentences
    )


def test_an_old_reading_leaves_the_bar_not_known(cast):
    make_ready(cast, cast.today - timedelta(days=15))
    verdict = verdict_of(cast.establishment, cast.today)
    assert verdict.state == "not known"
    assert states(verdict)["rooting_turf"] == "not known"


def test_before_the_first_of_april_the_gate_of_autumn_turf_holds(cast):
    last_of_march = date(2026, 3, 31)
    make_ready(cast, last_of_march)
    verdict = verdict_of(cast.establishment, last_of_march)
    assert [(one.criterion, one.state) for one in verdict.unmet] == [("gate", "not met")]
    assert states(verdict_of(cast.establishment, date(2026, 4, 1)))["gate"] == "met"


def test_a_green_not_laid_yet_is_not_ready(cast):
    Establishment.objects.filter(pk=cast.establishment.pk).update(established_on=None)
    cast.establishment.refresh_from_db()
    verdict = verdict_of(cast.establishment, cast.today)
    assert (verdict.state, verdict.unmet[0].sentences) == ("not ready", ("Not laid or sown yet.",))


def test_a_past_day_knows_nothing_of_later_readings(cast):
    make_ready(cast)
    assert verdict_of(cast.establishment, cast.today - timedelta(days=1)).state == "not known"


def test_a_check_of_the_drains_in_the_diary_counts_as_a_reading(cast):
    make_ready(cast)
    logged(cast, "drain_check", cast.today, {"running": False})
    assert states(verdict_of(cast.establishment, cast.today))["water"] == "not met"


def test_a_scalped_cut_breaks_the_height(cast):
    make_ready(cast)
    logged(cast, "cut", cast.today - timedelta(days=5), {"height_mm": 5.5, "scalped": True})
    assert states(verdict_of(cast.establishment, cast.today))["height"] == "not met"


def test_an_entry_taken_back_says_nothing(cast):
    make_ready(cast)
    entry = logged(cast, "drain_check", cast.today, {"running": False})
    Entry.objects.filter(pk=entry.pk).update(taken_back_at="2026-04-16T12:00Z")
    assert states(verdict_of(cast.establishment, cast.today))["water"] == "met"


def test_estimated_days_are_no_evidence_of_growth(cast):
    make_ready(cast)
    cast.club.weather_days.update(is_estimated=True)
    known = judged(cast.establishment, cast.today)
    assert known.evidence.growth.air_c == {}
    assert states(known.verdict)["growth"] == "not known"


def test_the_clubs_own_threshold_counts_from_its_day(cast):

    make_ready(cast)
    key, day = "criterion.rooting_turf.depth_mm", cast.today
    Setting.objects.create(
        club=cast.club, key=key, value=70, by=cast.head, why="deep rootzone", in_force_from=day
    )
    read(cast, "rooting_depth", [62, 55, 71, 58, 66], day - timedelta(days=1))
    assert states(verdict_of(cast.establishment, day))["rooting_turf"] == "not met"
    assert states(verdict_of(cast.establishment, day - timedelta(days=1)))["rooting_turf"] == "not known"


def test_all_greens_cost_the_queries_of_one(cast, django_assert_num_queries):
    make_ready(cast)
    with django_assert_num_queries(6):
        verdict_of(cast.establishment, cast.today)
    laid_green(cast.club, "Eighth")
    laid_green(cast.club, "Ninth", kind="seed", species="creeping bent")
    with django_assert_num_queries(7):
        found = verdicts(cast.club, cast.today)
    assert [one.state for one in found.values()] == ["ready", "not known", "not known"]
