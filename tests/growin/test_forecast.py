"""The forecast that is kept: worked out between laying and opening, on new evidence or once a night."""

from datetime import date, timedelta

import pytest

from greens.actions.readings import record_readings
from greens.actions.weather import record_day
from greens.models import Club, Job, ReadingSet
from growin.actions import forecast as actions
from growin.actions.decision import decide
from growin.agronomy import plain_words
from growin.evidence import verdict_of
from growin.evidence.expected import READY
from growin.models import Decision, KeptForecast, Pattern
from growin.queries import forecast as forecasts
from tests.entries import at, logged
from tests.growin.ripe import HEIGHT_MM, make_ready

pytestmark = pytest.mark.django_db


def wanted() -> list:
    return list(forecasts.wanting(10))


def read(cast, measure="rooting_depth", values=(60, 62, 58, 61, 63)):
    return record_readings(
        green=cast.green, by=cast.staff, taken_by=cast.staff, measure=measure, on=cast.today,
        values=list(values),
    )  # fmt: skip


def opened(cast) -> Decision:
    return Decision.objects.create(
        establishment=cast.establishment, pattern=Pattern.FULL, made_on=cast.today, from_day=cast.today,
        verdict="ready", evidence={}, digest="0" * 64, by=cast.committee,
    )  # fmt: skip


def test_a_kept_forecast_is_read_back_as_it_was_told(cast):
    row = actions.keep(cast.establishment, cast.today)
    told = forecasts.newest(cast.establishment)
    assert (told.as_of, told.p10, told.p50, told.p90) == (cast.today, row.p10, row.p50, row.p90)
    assert told.p10 <= told.p50 <= told.p90
    assert told.chance_by(told.p50) >= 0.5 > told.chance_by(told.p50 - timedelta(days=1))
    assert sum(told.holding_back.values()) == pytest.approx(1)


def test_turf_of_last_autumn_is_foreseen_for_its_own_spring(cast):
    """Supplied turf laid in autumn opens in Britain from mid to late April (BIGGA 2004); without a single
    reading by 16 April most of the chance lies in the weeks after."""
    told = actions.keep(cast.establishment, cast.today)
    assert date(2026, 4, 16) <= told.p10 <= told.p50 <= date(2026, 7, 31)


def test_every_rebuild_between_laying_and_opening_wants_one(cast):
    assert {one.green.name for one in wanted()} == {cast.green.name, cast.other_green.name}
    actions.keep(cast.establishment, cast.today)
    assert [one.green.name for one in wanted()] == [cast.other_green.name]


def test_a_green_in_play_wants_none(cast):
    opened(cast)
    assert [one.green.name for one in wanted()] == [cast.other_green.name]


def test_a_green_that_is_not_laid_wants_none(cast):
    cast.establishment.established_on = None
    cast.establishment.save()
    assert [one.green.name for one in wanted()] == [cast.other_green.name]


def test_new_evidence_makes_it_stale_and_the_next_sweep_queues_it_once(
    cast, django_capture_on_commit_callbacks
):
    for one in (cast.establishment, cast.other_establishment):
        actions.keep(one, cast.today)
    assert actions.queue_due() == 0
    with django_capture_on_commit_callbacks(execute=True):
        read(cast)
    club = Club.objects.get(pk=cast.club.pk)
    assert forecasts.is_stale(forecasts.kept(cast.establishment), club)
    assert [actions.queue_due(), actions.queue_due(), Job.objects.count()] == [1, 1, 1]


def test_a_night_makes_it_stale(cast, settings):
    for one in (cast.establishment, cast.other_establishment):
        actions.keep(one, cast.today)
    settings.FIXED_TODAY = cast.today + timedelta(days=1)
    assert actions.queue_due() == 2


def test_the_worker_makes_it_and_what_changed_nothing_costs_no_second_forecast(
    cast, django_capture_on_commit_callbacks
):
    job = Job(club=cast.club, kind=actions.FORECAST, args={"rebuild": cast.establishment.pk})
    assert actions.make(job) == {"as_of": "2026-04-16"}
    first = forecasts.kept(cast.establishment)
    with django_capture_on_commit_callbacks(execute=True):
        record_day(club=cast.club, by=cast.staff, on=cast.today, rain_mm=4)
    actions.make(job)
    again = forecasts.kept(cast.establishment)
    assert (again.pk, again.made_at) == (first.pk, first.made_at)
    assert again.mark == Club.objects.get(pk=cast.club.pk).trail_mark != first.mark


def test_readings_narrow_it_and_the_moves_say_what_came_in(cast):
    before = actions.keep(cast.establishment, cast.today - timedelta(days=1))
    make_ready(cast)
    after = actions.keep(cast.establishment, cast.today)
    assert after.p90 - after.p10 < before.p90 - before.p10
    first, second = forecasts.moves(cast.establishment)
    assert first.because == "20 sets of readings, 3 heights of cut, 10 days of weather"
    assert (first.days, second.days) == ((after.p50 - before.p50).days, None)
    assert second.because == "the first forecast"


def test_a_green_that_meets_every_bar_is_foreseen_for_today(cast, as_):
    make_ready(cast)
    row = actions.keep(cast.establishment, cast.today)
    assert (row.p10, row.p90) == (cast.today, cast.today)
    page = as_("committee").get(at(cast, "readiness", cast.green.pk)).content.decode()
    assert READY in page


def test_it_never_foresees_a_day_that_the_verdict_rules_out(cast):
    """Cut at opening height for weeks by the bench, measured on the green only today: 14 days from today."""
    make_ready(cast)
    ReadingSet.objects.filter(measure="height").delete()
    for back in range(20, 0, -3):
        logged(cast, on=cast.today - timedelta(days=back), details={"height_mm": HEIGHT_MM})
    read(cast, "height", [HEIGHT_MM] * 3)
    finding = next(
        one for one in verdict_of(cast.establishment, cast.today).findings if one.criterion == "height"
    )
    assert "Thu 30 April at the earliest" in " ".join(finding.sentences)
    assert actions.keep(cast.establishment, cast.today).p10 >= date(2026, 4, 30)


def test_while_a_bar_is_not_read_the_page_never_calls_it_ready(cast, as_):
    make_ready(cast)
    ReadingSet.objects.filter(measure="disease_share").delete()
    actions.keep(cast.establishment, cast.today)
    page = as_("committee").get(at(cast, "readiness", cast.green.pk)).content.decode()
    assert READY not in page
    assert "What grows is ready; still to be read or put right: disease and damage." in page


def test_the_page_says_when_how_likely_and_what_it_rests_on(cast, as_):
    row = actions.keep(cast.establishment, cast.today)
    page = as_("adviser").get(at(cast, "forecast", cast.establishment.pk)).content.decode()
    assert f"As likely as not by {plain_words.day(row.p50, cast.today)}" in page
    assert "1 open history and published durations" in page
    assert "the first forecast" in page
    picture = as_("adviser").get(at(cast, "forecast_picture", cast.establishment.pk))
    assert picture.headers["Content-Type"] == "image/svg+xml"


def test_a_decision_keeps_the_forecast_of_its_day(cast, as_):
    row = decide(
        establishment=cast.establishment, by=cast.committee, from_day=cast.today, pattern="limited",
        meeting_on=cast.today, present="All", stop_rule="Rut", reason="The county day cannot be moved.",
    )  # fmt: skip
    told, known = row.evidence["forecast"], forecasts.newest(cast.establishment)
    assert (told["as_of"], told["chance"]) == ("2026-04-16", round(known.chance_by(cast.today), 4))
    page = as_("committee").get(at(cast, "decision", row.pk)).content.decode()
    assert f"Ready by the day of opening: {told['chance_words']}" in page


def test_of_older_forecasts_only_the_dates_stay(cast):
    actions.keep(cast.establishment, cast.today - timedelta(days=1))
    actions.keep(cast.establishment, cast.today)
    assert [bool(row.told) for row in KeptForecast.objects.order_by("as_of")] == [False, True]


def test_without_an_area_it_says_what_is_missing_and_does_not_try_for_ever(cast):
    cast.green.area_dm2 = 0
    cast.green.save()
    cast.establishment.refresh_from_db()
    row = actions.keep(cast.establishment, cast.today)
    assert row.refused == "Enter the area of the green: every amount hangs on it."
    assert forecasts.newest(cast.establishment) is None
    assert cast.green not in [one.green for one in wanted()]


def test_another_clubs_rebuild_is_never_worked_out_for_this_one(cast):
    job = Job(club=cast.club, kind=actions.FORECAST, args={"rebuild": cast.other_establishment.pk})
    with pytest.raises(actions.jobs.NotDone):
        actions.make(job)
