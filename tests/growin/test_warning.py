"""The warning against opening too early: who hears it first, who next when nobody answers, each step once."""

from datetime import UTC, datetime, timedelta

import pytest

from greens.actions import mail as mails
from greens.actions.notice import see
from greens.choices import NoticeKind, Role
from greens.models import Job, Mail, Membership, Notice, Person, TrailLine
from growin.actions import forecast, warning
from growin.actions.decision import decide
from growin.actions.programme import issue_programme
from growin.actions.proposal import propose, withdraw
from growin.agronomy.in_play import STOP_RULE
from growin.models import Basis, EarlyWarning, KeptForecast, Lookout, RaisedStep
from tests.entries import at
from tests.growin.test_occasions import looked

pytestmark = pytest.mark.django_db
MORNING = datetime(2026, 4, 16, 8, 0, tzinfo=UTC)
TWO_DAYS = timedelta(hours=48, seconds=1)


@pytest.fixture(autouse=True)
def in_the_morning(time_machine):
    time_machine.move_to(MORNING, tick=False)


def forecast_says(cast, days: int | None) -> None:
    """The newest forecast has the green ready so many days from the cast's today; None: out of sight."""
    row = forecast.keep(cast.establishment, cast.club.local_today())
    row.p50 = None if days is None else cast.today + timedelta(days=days)
    row.save()


def proposed(cast, days: int = 5, likely: int = 25):
    """A day proposed that the forecast has slipped past; the club is looked at."""
    row = propose(
        establishment=cast.establishment, by=cast.committee, pattern="limited",
        opening_on=cast.today + timedelta(days=days),
    )  # fmt: skip
    forecast_says(cast, likely)
    looked(cast)
    return row


def decided(cast, days: int = 5, likely: int = 25) -> None:
    decide(
        establishment=cast.establishment, by=cast.committee, pattern="full", meeting_on=cast.today,
        from_day=cast.today + timedelta(days=days), present="all", stop_rule=STOP_RULE, reason="A match.",
    )  # fmt: skip
    forecast_says(cast, likely)
    looked(cast)


def warned() -> dict[str, int]:
    """How often each was told of the planned day."""
    rows = Notice.objects.filter(kind=NoticeKind.OPENING).select_related("person")
    names = [row.person.name for row in rows]
    return {name: names.count(name) for name in names}


def steps() -> list[str]:
    return [step.to for step in RaisedStep.objects.order_by("number")]


def test_a_day_only_proposed_is_the_committees_to_hear_of_first(cast):
    proposed(cast)
    assert (warned(), steps()) == ({"Maeve Thorn": 1}, ["Maeve Thorn"])
    row = Notice.objects.get(kind=NoticeKind.OPENING)
    assert row.subject == "Seventh: not likely to be ready by Tue 21 April"
    assert "as likely as not, by Mon 11 May, 20 days later" in row.text
    assert "at least twice as long to heal" in row.text
    assert (row.asks_word, mails.send_due()) == (True, 1)


def test_a_day_that_the_green_will_keep_warns_nobody(cast):
    proposed(cast, days=30, likely=25)
    assert (warned(), EarlyWarning.objects.count()) == ({}, 0)


def test_unanswered_it_goes_on_to_the_head_greenkeeper_and_the_adviser_after_48_hours(cast, time_machine):
    proposed(cast)
    time_machine.shift(timedelta(hours=47))
    assert warning.go_on() == 0
    time_machine.shift(timedelta(hours=2))
    assert [warning.go_on(), warning.go_on()] == [1, 0]
    assert warned() == {"Maeve Thorn": 1, "Isla Rowan": 1, "Bram Hazel": 1}
    time_machine.shift(timedelta(days=9))
    assert (warning.go_on(), steps()) == (0, ["Maeve Thorn", "Isla Rowan, Bram Hazel"])


def test_a_decided_day_is_the_head_greenkeepers_first_then_the_committees_then_the_operators(
    cast, time_machine
):
    Person.objects.create(email="ops@example.org", name="Ola Brine", is_operator=True)
    Membership.objects.create(
        club=cast.club, name="Rory Whin", role=Role.COMMITTEE,
        person=Person.objects.create(email="rory@example.org", name="Rory Whin"),
    )  # fmt: skip
    decided(cast)
    assert warned() == {"Isla Rowan": 1}
    time_machine.shift(TWO_DAYS)
    warning.go_on()
    assert warned() == {"Isla Rowan": 1, "Maeve Thorn": 1, "Rory Whin": 1}
    time_machine.shift(TWO_DAYS)
    warning.go_on()
    assert steps() == ["Isla Rowan", "Maeve Thorn, Rory Whin", "Ola Brine"]
    mails.send_due()
    assert Mail.objects.filter(person__name="Ola Brine", state="sent").count() == 1


def test_who_acknowledges_ends_the_chain(cast, time_machine):
    proposed(cast)
    see(member=cast.committee, pk=Notice.objects.get(kind=NoticeKind.OPENING).pk)
    time_machine.shift(TWO_DAYS)
    assert (warning.go_on(), steps()) == (0, ["Maeve Thorn"])
    row = EarlyWarning.objects.get()
    assert (row.acknowledged_by, row.next_at) == (cast.committee, None)


def test_putting_it_aside_is_no_word(cast, as_, time_machine):
    proposed(cast)
    row = Notice.objects.get(kind=NoticeKind.OPENING)
    as_("committee").post(at(cast, "notice_put_aside"), {"notice": row.pk, "days": "7"})
    time_machine.shift(TWO_DAYS)
    assert warning.go_on() == 1


def test_a_step_with_nobody_to_tell_passes_on_at_once(cast):
    Membership.objects.filter(pk=cast.committee.pk).update(role=Role.ADVISER)
    proposed(cast)
    assert steps() == ["nobody: there is none to tell", "Isla Rowan, Bram Hazel, Maeve Thorn"]


def test_it_is_said_again_at_each_mark_and_whenever_it_worsens(cast, settings):
    proposed(cast, days=40, likely=45)
    seen = {}
    for days, likely in ((1, 46), (12, 46), (13, 46), (20, 49), (26, 50), (33, 50), (37, 50), (38, 50)):
        settings.FIXED_TODAY = cast.today + timedelta(days=days)
        forecast_says(cast, likely)
        looked(cast)
        seen[days] = EarlyWarning.objects.get().told
    assert seen == {1: 1, 12: 2, 13: 2, 20: 3, 26: 4, 33: 5, 37: 6, 38: 6}
    standing = Notice.objects.filter(kind=NoticeKind.OPENING, lapsed_at=None)
    assert (standing.count(), len(steps())) == (1, 1)


def test_said_again_it_wants_a_word_again_and_reaches_those_reached_before(cast, settings, time_machine):
    proposed(cast, days=40, likely=45)
    time_machine.shift(TWO_DAYS)
    warning.go_on()
    see(member=cast.head, pk=Notice.objects.get(to=cast.head, kind=NoticeKind.OPENING).pk)
    forecast_says(cast, 60)
    looked(cast)
    assert warned() == {"Maeve Thorn": 2, "Isla Rowan": 2, "Bram Hazel": 2}
    assert (EarlyWarning.objects.get().acknowledged_at, len(steps())) == (None, 2)


def test_a_forecast_back_before_the_day_ends_it(cast, time_machine):
    proposed(cast)
    forecast_says(cast, 2)
    looked(cast)
    assert EarlyWarning.objects.get().ended_at
    assert Notice.objects.get(kind=NoticeKind.OPENING).lapsed_at
    time_machine.shift(TWO_DAYS)
    assert warning.go_on() == 0


def test_a_proposal_withdrawn_ends_it_and_the_same_day_proposed_again_goes_on_where_it_was(cast):
    row = proposed(cast)
    withdraw(proposal=row, by=cast.committee, why="Too early.")
    looked(cast)
    assert EarlyWarning.objects.get().ended_at
    proposed(cast)
    known = EarlyWarning.objects.get()
    assert (known.ended_at, known.told, len(steps())) == (None, 2, 1)


def test_the_day_of_the_programme_is_held_against_the_forecast_too(cast):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    forecast_says(cast, 200)
    looked(cast)
    assert (EarlyWarning.objects.get().basis, warned()) == (Basis.PROGRAMME, {"Isla Rowan": 1})


def test_beyond_all_days_is_said_in_words(cast):
    proposed(cast, likely=None)
    assert "beyond all the days that it looks at" in Notice.objects.get(kind=NoticeKind.OPENING).text


def test_without_a_forecast_nobody_is_warned(cast):
    proposed(cast, days=30, likely=1)
    KeptForecast.objects.all().delete()
    looked(cast)
    assert warned() == {}


def test_the_readiness_page_says_who_was_told_and_who_is_next(cast, as_, time_machine):
    proposed(cast)
    page = as_("head").get(at(cast, "readiness", cast.green.pk)).content.decode()
    assert "Warned against Tue 21 April 2026, proposed by the committee" in page
    assert "Told: Maeve Thorn, Thu 16 April, 09:00" in page
    assert "on Sat 18 April, 09:00 it goes on to the head greenkeeper and the adviser" in page
    see(member=cast.committee, pk=Notice.objects.get(kind=NoticeKind.OPENING).pk)
    page = as_("head").get(at(cast, "readiness", cast.green.pk)).content.decode()
    assert "Acknowledged by Maeve Thorn, Thu 16 April, 09:00" in page


def test_every_step_stands_in_the_record_of_changes(cast, time_machine):
    proposed(cast)
    time_machine.shift(TWO_DAYS)
    warning.go_on()
    deeds = TrailLine.objects.filter(deed__startswith="Warned").order_by("pk").values_list("deed", flat=True)
    assert list(deeds) == [
        "Warned against opening Seventh on Tue 21 April: Maeve Thorn",
        "Warned against opening Seventh on Tue 21 April: Isla Rowan, Bram Hazel",
    ]


def test_it_is_acknowledged_where_it_is_read(cast, as_):
    proposed(cast)
    place = at(cast, "readiness", cast.green.pk)
    assert "Acknowledge this warning" not in as_("head").get(place).content.decode()
    assert "Acknowledge this warning" in as_("committee").get(place).content.decode()
    row = Notice.objects.get(kind=NoticeKind.OPENING)
    answer = as_("committee").post(at(cast, "notice_seen"), {"notice": row.pk, "back": place})
    assert answer.headers["Location"] == place
    assert "Acknowledged by Maeve Thorn" in as_("committee").get(place).content.decode()


def test_a_button_leads_nowhere_else(cast, as_):
    proposed(cast)
    answer = as_("committee").post(at(cast, "notice_seen"), {"notice": 1, "back": "https://example.com/"})
    assert answer.headers["Location"] == at(cast, "notices")


def test_a_forecast_that_moved_asks_for_a_look(cast):
    """The forecast follows the record; it may come after the look that the record asked for."""
    proposed(cast, days=30, likely=25)
    Lookout.objects.update(look_at=MORNING + timedelta(days=1))
    KeptForecast.objects.all().delete()
    forecast.make(Job(club=cast.club, args={"rebuild": cast.establishment.pk}))
    assert Lookout.objects.get(club=cast.club).look_at == MORNING


def test_a_warning_that_breaks_holds_up_none_of_another_club(cast, settings, time_machine):
    """A club whose time zone the machine does not know any more."""
    settings.FIXED_TODAY = None
    proposed(cast)
    EarlyWarning.objects.create(
        establishment=cast.other_establishment, planned_on=cast.today, basis=Basis.DECIDED, first=Role.HEAD,
        told_at=MORNING, next_at=MORNING,
    )  # fmt: skip
    broken = cast.other_establishment.green.club
    broken.time_zone = "Nowhere/Else"
    broken.save()
    time_machine.move_to(MORNING + TWO_DAYS, tick=False)
    assert [warning.go_on(), warning.go_on()] == [1, 0]
    assert RaisedStep.objects.filter(warning__establishment=cast.establishment, number=2).exists()
    stuck = EarlyWarning.objects.get(establishment=cast.other_establishment)
    assert (stuck.next_at, stuck.ended_at) == (MORNING + TWO_DAYS + warning.AFTER_TROUBLE, None)
