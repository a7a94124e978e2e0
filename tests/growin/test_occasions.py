"""What people are told: each kind when it is new, once, and no longer than it holds."""

from datetime import timedelta

import pytest
from django.utils import timezone

from greens.actions.weather import record_day
from greens.choices import NoticeKind
from greens.models import Club, Defect, Notice, ReadingSet
from growin.actions import lookout
from growin.actions.answer import not_done
from growin.actions.programme import issue_programme
from growin.models import Lookout
from growin.queries import programme, today
from tests.entries import label, logged
from tests.growin.ripe import make_ready
from tests.growin.test_stock import noted

pytestmark = pytest.mark.django_db


def looked(cast, settings=None, days: int = 0) -> None:
    """Somebody looks at the club, so many days after the cast's today."""
    if settings:
        settings.FIXED_TODAY = cast.today + timedelta(days=days)
    lookout.begin_looking()
    Lookout.objects.filter(club=cast.club).update(look_at=timezone.now())
    assert lookout.look_at(Lookout.objects.select_related("club").get(club=cast.club))
    assert Lookout.objects.get(club=cast.club).trouble == ""


def told(cast, kind: str, to: str = "head") -> list[Notice]:
    """What still stands of a kind before one of the cast, the newest last."""
    return list(Notice.objects.filter(to=cast[to], kind=kind, lapsed_at=None).order_by("pk"))


def subjects(cast, kind: str, to: str = "head") -> list[str]:
    return [row.subject for row in told(cast, kind, to)]


@pytest.fixture
def programmed(cast):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    return cast


def due(cast) -> list:
    return programme.due_on([cast.establishment], cast.today)


def rain_stops_all(cast) -> None:
    """Every step that is asked for is answered: not done, weather."""
    for one in due(cast):
        key, rebuilt = one.step.key, cast.establishment
        not_done(establishment=rebuilt, key=key, by=cast.staff, on=cast.today, reason="weather")


def test_work_due_is_told_to_those_who_do_it_and_to_nobody_else(programmed):
    looked(programmed)
    (row,) = told(programmed, NoticeKind.STEPS)
    (green,) = today.of_club(programmed.club, programmed.today).greens
    work = [one.step.what for one in (*green.jobs, green.walk) if not one.is_opening]
    assert row.subject == f"Seventh: {len(work)} steps due"
    assert all(what in row.text for what in work)
    assert len(told(programmed, NoticeKind.STEPS, "staff")) == 1
    assert (
        told(programmed, NoticeKind.STEPS, "committee") == told(programmed, NoticeKind.STEPS, "adviser") == []
    )


def test_the_same_step_is_not_told_twice_and_once_more_when_it_is_overdue(programmed, settings):
    looked(programmed)
    looked(programmed, settings, days=0)
    assert Notice.objects.filter(to=programmed.head, kind=NoticeKind.STEPS).count() == 1
    for days in range(1, 12):
        looked(programmed, settings, days)
    said = Notice.objects.filter(to=programmed.head, kind=NoticeKind.STEPS)
    assert said.filter(subject__contains="overdue").exists()
    assert len(told(programmed, NoticeKind.STEPS)) == 1


def test_a_wet_day_with_everything_not_done_nags_nobody(programmed, settings):
    rain_stops_all(programmed)
    looked(programmed)
    asked = (NoticeKind.STEPS, NoticeKind.READINGS)
    assert Notice.objects.filter(kind__in=asked).count() == 0


def test_what_was_told_lapses_once_it_is_answered(programmed):
    looked(programmed)
    assert told(programmed, NoticeKind.STEPS)
    rain_stops_all(programmed)
    looked(programmed)
    assert told(programmed, NoticeKind.STEPS) == told(programmed, NoticeKind.READINGS) == []


def test_readings_due_are_told_by_themselves(programmed):
    looked(programmed)
    (row,) = told(programmed, NoticeKind.READINGS, "staff")
    assert "readings due" in row.subject
    assert row.place == f"/clubs/marram-links/greens/{programmed.green.pk}/readings/new/"


def test_a_reading_that_grew_too_old_is_told_once(cast, settings):
    make_ready(cast)
    looked(cast)
    assert told(cast, NoticeKind.READINGS) == []
    looked(cast, settings, days=15)
    (row,) = told(cast, NoticeKind.READINGS)
    assert row.subject.startswith("Seventh: rooting, holes and ball drops, joints and ")
    assert "Rooting: last read Thu 16 April, too old to count." in row.text
    looked(cast, settings, days=16)
    assert Notice.objects.filter(kind=NoticeKind.READINGS, to=cast.head).count() == 1


def test_the_first_look_at_a_green_tells_of_no_change(cast):
    make_ready(cast)
    looked(cast)
    assert told(cast, NoticeKind.CRITERION) == []


def test_a_bar_newly_met_and_one_lost_are_told_with_their_reasons(cast):
    make_ready(cast, joint_gap=[0, 1, 5, 0, 1] * 4)
    looked(cast)
    ReadingSet.objects.filter(measure="joint_gap").update(values=[0] * 20)
    ReadingSet.objects.filter(measure="rooting_depth").update(values=[20] * 5)
    looked(cast)
    (row,) = told(cast, NoticeKind.CRITERION)
    assert row.subject == "Seventh: rooting no longer met, joints newly met"
    assert "White roots" in row.text
    assert subjects(cast, NoticeKind.CRITERION, "committee") == [row.subject]
    assert told(cast, NoticeKind.CRITERION, "staff") == []


def test_that_all_bars_are_met_is_said(cast):
    make_ready(cast, joint_gap=[0, 1, 5, 0, 1] * 4)
    looked(cast)
    ReadingSet.objects.filter(measure="joint_gap").update(values=[0] * 20)
    looked(cast)
    assert subjects(cast, NoticeKind.CRITERION) == ["Seventh: joints newly met, all bars are met"]


def test_a_season_close_to_its_limit_and_over_it(cast):
    """Turf supplied by a grower has 80 to 150 kg N/ha in its first season (trade practice)."""
    one = label(cast, lines={"N_total": 10})
    kg_ha = lambda rate: round(rate / 10 * 450 / 0.1)  # noqa: E731 – g of product over 450 m²
    logged(cast, "feed", products=[(one, kg_ha(40))], on=cast.today - timedelta(days=60))
    looked(cast)
    assert told(cast, NoticeKind.CEILING) == []
    logged(cast, "feed", products=[(one, kg_ha(90))], on=cast.today - timedelta(days=20))
    looked(cast)
    assert subjects(cast, NoticeKind.CEILING) == ["Seventh: nitrogen close to its limit"]
    assert "130 kg N/ha in its first season, of 150 kg N/ha at most" in told(cast, NoticeKind.CEILING)[0].text
    logged(cast, "feed", products=[(one, kg_ha(30))])
    looked(cast)
    assert subjects(cast, NoticeKind.CEILING) == ["Seventh: nitrogen over its limit"]


def test_phosphorus_close_to_the_clubs_own_limit_of_a_year_is_told_too(cast):
    """P2O5 is 43.64 % phosphorus (Regulation (EC) 2003/2003)."""
    Club.objects.filter(pk=cast.club.pk).update(year_limit_p_kg_ha=10)
    one = label(cast, lines={"P2O5": 10})
    logged(
        cast, "feed", products=[(one, round(9 / 0.4364 / 0.1 / 10 * 450))], on=cast.today - timedelta(days=9)
    )
    looked(cast)
    assert subjects(cast, NoticeKind.CEILING) == ["Seventh: phosphorus close to its limit"]
    said = "9 kg P/ha this year, by the club's own limit, of 10 kg P/ha at most"
    assert said in told(cast, NoticeKind.CEILING)[0].text


def test_a_shed_that_will_not_last_is_told_until_something_comes(programmed):
    one = label(programmed, "Spring feed", lines={"N_total": 12})
    noted(programmed, one, "counted", 1)
    looked(programmed)
    (row,) = told(programmed, NoticeKind.STOCK)
    assert row.subject.startswith("Spring feed: ")
    assert "1 kg in the shed" in row.text.lower()
    noted(programmed, one, "delivered", 500)
    looked(programmed)
    assert told(programmed, NoticeKind.STOCK) == []


def test_what_was_told_says_how_it_stands_until_its_mail_leaves(programmed, time_machine):
    """A feed that was logged before breakfast stands in no mail of the morning."""
    looked(programmed)
    (before,) = told(programmed, NoticeKind.STEPS)
    done = next(one for one in due(programmed) if one.step.what in before.text)
    rebuilt = programmed.establishment
    not_done(
        establishment=rebuilt, key=done.step.key, by=programmed.staff, on=programmed.today, reason="weather"
    )
    looked(programmed)
    (after,) = told(programmed, NoticeKind.STEPS)
    assert (after.pk, done.step.what in after.text, after.subject == before.subject) == (
        before.pk,
        False,
        False,
    )


def test_frost_on_record_is_told_once_for_its_run(cast, settings):
    record_day(club=cast.club, by=cast.head, on=cast.today, min_c=-3, max_c=6)
    looked(cast)
    assert subjects(cast, NoticeKind.WEATHER, "staff") == ["Frost: down to -3 °C"]
    settings.FIXED_TODAY = cast.today + timedelta(days=1)
    record_day(club=cast.club, by=cast.head, on=settings.FIXED_TODAY, min_c=-4, max_c=6)
    looked(cast)
    assert Notice.objects.filter(to=cast.staff, kind=NoticeKind.WEATHER).count() == 1
    looked(cast, settings, days=4)
    assert told(cast, NoticeKind.WEATHER, "staff") == []


def test_what_is_told_stands_in_the_units_of_the_club(cast):
    cast.club.units = "us"
    cast.club.save()
    record_day(club=cast.club, by=cast.head, on=cast.today, min_c=-5, max_c=6)
    looked(cast)
    assert subjects(cast, NoticeKind.WEATHER) == ["Frost: down to 23 °F"]


def test_a_defect_is_told_a_week_before_its_day_and_when_it_has_passed(cast, settings):
    Defect.objects.create(
        establishment=cast.establishment, what="Settled over a drain", place="front left",
        found_on=cast.today, due_on=cast.today + timedelta(days=10), by=cast.head,
    )  # fmt: skip
    looked(cast)
    assert told(cast, NoticeKind.DEFECT) == []
    looked(cast, settings, days=3)
    (row,) = told(cast, NoticeKind.DEFECT)
    assert row.subject == "Seventh: 1 defect for the contractor"
    assert row.text == "– Due Sun 26 April 2026: Settled over a drain (front left)."
    looked(cast, settings, days=11)
    assert subjects(cast, NoticeKind.DEFECT) == ["Seventh: 1 defect for the contractor, 1 overdue"]
    Defect.objects.update(put_right_on=cast.today)
    looked(cast, settings, days=12)
    assert told(cast, NoticeKind.DEFECT) == []


def test_the_week_is_told_in_plain_words_once_from_its_monday_on(cast, settings):
    """Thursday 16 April: the week that ended is that of 6 to 12 April."""
    logged(cast, "cut", on=cast.today - timedelta(days=5))
    logged(cast, "roll", on=cast.today - timedelta(days=4))
    looked(cast)
    (row,) = told(cast, NoticeKind.NOTE, "committee")
    assert row.subject == "Seventh: the week of Mon 6 April to Sun 12 April"
    assert "Done: rolled once. Cut on 1 day." in row.text
    assert "Readiness: not ready. 1 of 10 bars met; height not met, 8 not known." in row.text
    looked(cast, settings, days=3)
    assert len(told(cast, NoticeKind.NOTE, "committee")) == 1
    looked(cast, settings, days=4)
    assert len(told(cast, NoticeKind.NOTE, "committee")) == 2
