"""What stands in a member's calendar: chosen by role and wish, on the club's days, under names that stay."""

from datetime import date, timedelta

import pytest
from django.test import Client
from icalendar import Calendar

from greens.actions.defect import change_defect, note_defect, put_right
from greens.actions.diary import take_back
from greens.actions.feed import make_feed
from greens.actions.wish import change_wishes
from greens.choices import Role, Units
from greens.models import Defect
from growin.actions.answer import not_done, put_off, tick
from growin.actions.decision import decide
from growin.actions.programme import issue_programme
from growin.actions.proposal import propose
from growin.models import Pattern
from tests.cast import joined, laid_green
from tests.entries import logged
from tests.growin.ripe import make_ready

pytestmark = pytest.mark.django_db


@pytest.fixture
def drawn(cast):
    """A programme of the cast's green."""
    return issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)


def calendar(member) -> Calendar:
    answer = Client().get(f"/calendar/{make_feed(member=member)}/greens.ics")
    assert (answer.status_code, answer["Content-Type"]) == (200, "text/calendar; charset=utf-8")
    return Calendar.from_ical(answer.content)


def events(member) -> dict:
    """The member's events by the first word of their name and the rest: ("step", "1-feed-02")."""
    uids = {str(one["UID"]).partition("@")[0]: one for one in calendar(member).walk("VEVENT")}
    return {tuple(uid.split("-", 1)): one for uid, one in uids.items()}


def step(cast, member, key: str):
    return events(member).get(("step", f"{cast.establishment.pk}-{key}"))


def kinds(member) -> set[str]:
    return {kind for kind, _ in events(member)}


def feed_to_come(drawn, cast):
    return drawn.steps.filter(kind="feed", earliest__gt=cast.today).first()


def test_a_step_stands_on_its_likely_day_for_the_whole_day(cast, drawn):
    planned = feed_to_come(drawn, cast)
    event = step(cast, cast.staff, planned.key)
    assert (event.decoded("DTSTART"), event["DTSTART"].params["VALUE"]) == (planned.likely, "DATE")
    assert event.decoded("DTEND") == planned.likely + timedelta(days=1)
    assert event["SUMMARY"] == f"Seventh: {planned.what}, {planned.planned}"
    assert (event["STATUS"], event["TRANSP"]) == ("CONFIRMED", "TRANSPARENT")


def test_a_step_says_when_how_much_how_and_why(cast, drawn):
    planned = feed_to_come(drawn, cast)
    text = str(step(cast, cast.staff, planned.key)["DESCRIPTION"])
    said = (f"{planned.earliest.day} {planned.earliest:%B}", planned.planned, planned.how, planned.why[1:])
    assert [one for one in said if one not in text] == []


def test_amounts_are_in_the_units_that_the_club_reads(cast, drawn):
    cast.club.units = Units.US
    cast.club.save()
    summary = step(cast, cast.staff, feed_to_come(drawn, cast).key)["SUMMARY"]
    assert ("lb N/1,000 ft²" in summary, "kg" in summary) == (True, False)


def test_a_calendar_leads_to_the_page_of_a_step(cast, as_, drawn):
    address = str(step(cast, cast.staff, feed_to_come(drawn, cast).key)["URL"])
    assert as_("staff").get(address.removeprefix("http://127.0.0.1:8000")).status_code == 200


def test_names_stay_through_a_new_version_and_it_counts_up(cast, drawn):
    before = events(cast.staff)
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today, why="once more")
    after = events(cast.staff)
    assert set(after) == set(before)
    assert {int(one["SEQUENCE"]) for one in before.values()} == {0}
    assert {int(one["SEQUENCE"]) for one in after.values()} == {1}


def test_a_step_that_was_put_off_moves_and_counts_up(cast, drawn):
    planned, until = feed_to_come(drawn, cast), cast.today + timedelta(days=40)
    before = step(cast, cast.staff, planned.key)
    put_off(establishment=cast.establishment, key=planned.key, by=cast.head, on=cast.today, until=until)
    after = step(cast, cast.staff, planned.key)
    assert (after.decoded("DTSTART"), int(after["SEQUENCE"])) == (until, 1)
    assert after.decoded("LAST-MODIFIED") >= before.decoded("LAST-MODIFIED")
    assert "Put off until Tue 26 May 2026." in after["DESCRIPTION"]


@pytest.mark.parametrize("answer", [tick, lambda **said: not_done(**said, reason="too wet")])
def test_what_is_over_goes_out(cast, drawn, answer):
    planned = feed_to_come(drawn, cast)
    answer(establishment=cast.establishment, key=planned.key, by=cast.head, on=cast.today)
    assert step(cast, cast.staff, planned.key) is None


def test_a_tick_whose_entry_is_taken_back_brings_the_step_back_counted_up(cast, drawn):
    planned, entry = feed_to_come(drawn, cast), logged(cast, "brush")
    tick(establishment=cast.establishment, key=planned.key, by=cast.head, on=cast.today, entry=entry)
    assert step(cast, cast.staff, planned.key) is None
    take_back(entry=entry, by=cast.head)
    assert int(step(cast, cast.staff, planned.key)["SEQUENCE"]) == 2


def test_a_step_that_was_dropped_goes_out(cast, drawn):
    planned = feed_to_come(drawn, cast)
    drawn.steps.filter(pk=planned.pk).update(is_dropped=True)
    assert step(cast, cast.staff, planned.key) is None


def defect(cast, **more) -> Defect:
    said = {"what": "Joint open at the back", "place": "", "due_on": cast.today + timedelta(days=9)} | more
    return note_defect(establishment=cast.establishment, by=cast.head, found_on=cast.today, **said)


def test_the_head_greenkeeper_has_the_contractors_days(cast):
    row = defect(cast)
    event = events(cast.head)[("defect", str(row.pk))]
    assert (event["SUMMARY"], int(event["SEQUENCE"])) == (
        "Seventh: contractor's defect due: Joint open at the back",
        0,
    )
    assert event.decoded("DTSTART") == date(2026, 4, 25)


def test_a_defect_with_another_day_counts_up_and_goes_out_once_put_right(cast):
    row = defect(cast)
    later = cast.today + timedelta(days=20)
    change_defect(defect=row, by=cast.head, what=row.what, place="", found_on=row.found_on, due_on=later)
    event = events(cast.head)[("defect", str(row.pk))]
    assert (event.decoded("DTSTART"), int(event["SEQUENCE"])) == (later, 1)
    put_right(defect=row, by=cast.head, on=cast.today)
    assert "defect" not in kinds(cast.head)


def proposed(cast, days=20):
    on = cast.today + timedelta(days=days)
    return propose(
        establishment=cast.establishment,
        by=cast.committee,
        opening_on=on,
        pattern=Pattern.ALTERNATE,
    )


def opened(cast, on):
    """A decision of today for a day, on a green that is ready."""
    make_ready(cast)
    return decide(
        establishment=cast.establishment,
        by=cast.committee,
        pattern=Pattern.ALTERNATE,
        from_day=on,
        stop_rule="Closed in the wet.",
        meeting_on=cast.today,
        present="the committee",
    )


@pytest.mark.parametrize("who", ["head", "staff", "committee", "adviser"])
def test_everybody_has_a_proposed_opening_as_not_certain(cast, who):
    row = proposed(cast)
    event = events(cast[who])[("proposal", str(row.pk))]
    assert (event["STATUS"], event.decoded("DTSTART")) == ("TENTATIVE", row.opening_on)


def test_a_decided_opening_takes_the_place_of_the_proposed_and_of_the_planned(cast, drawn):
    proposed(cast)
    row = opened(cast, cast.today + timedelta(days=20))
    found = events(cast.head)
    event = found[("decision", str(row.pk))]
    assert (event["STATUS"], event.decoded("DTSTART")) == ("CONFIRMED", row.from_day)
    assert "Stop rule: Closed in the wet." in event["DESCRIPTION"]
    assert ("proposal" in {kind for kind, _ in found}) is False
    assert step(cast, cast.head, "inspection-opening") is None


def test_looks_after_opening_stand_by_the_real_first_day(cast, drawn):
    opened(cast, cast.today)
    days = {one.decoded("DTSTART") for (kind, _), one in events(cast.staff).items() if kind == "look"}
    assert days == {cast.today + timedelta(days=days) for days in (7, 14, 28)}
    assert [rest for kind, rest in events(cast.staff) if kind == "step" and "recheck" in rest] == []


def test_each_role_has_what_it_is_told_of(cast, drawn):
    defect(cast)
    opened(cast, cast.today)
    assert {who: kinds(cast[who]) for who in ("head", "staff", "committee", "adviser")} == {
        "head": {"decision", "look", "defect", "step"},
        "staff": {"decision", "look", "step"},
        "committee": {"decision"},
        "adviser": {"decision"},
    }


def test_a_green_that_was_left_out_of_the_wishes_stays_out(cast, drawn):
    proposed(cast)
    defect(cast)
    assert kinds(cast.head) == {"step", "proposal", "defect"}
    change_wishes(member=cast.head, paces={}, left_out=[cast.green])
    assert kinds(cast.head) == set()


def test_another_clubs_greens_are_not_in_it(cast, drawn):
    issue_programme(establishment=cast.other_establishment, by=cast.outsider, on=cast.today)
    own = {str(one["LOCATION"]) for one in events(cast.outsider).values()}
    assert own == {"Third, Fernhollow Park"}


def test_an_empty_calendar_is_still_one(cast):
    found = calendar(joined(cast.club, "Wren Ashby", Role.ADVISER))
    assert (len(found.walk("VEVENT")), len(found.walk("VTIMEZONE"))) == (0, 1)


def test_a_calendar_that_has_it_already_is_told_so_until_the_record_changes(cast):
    address = f"/calendar/{make_feed(member=cast.head)}/greens.ics"
    cast.club.refresh_from_db()
    tag = Client().get(address)["ETag"]
    again = Client().get(address, headers={"If-None-Match": tag})
    assert (again.status_code, again["ETag"], again.content) == (304, tag, b"")
    cast.club.trail_mark += 1  # as any line in the record of changes does, once it is committed
    cast.club.save()
    new = Client().get(address, headers={"If-None-Match": tag})
    assert (new.status_code, new["ETag"] != tag) == (200, True)


def test_asking_for_nothing_new_costs_one_query(cast, drawn, django_assert_num_queries):
    address = f"/calendar/{make_feed(member=cast.head)}/greens.ics"
    tag = Client().get(address)["ETag"]
    with django_assert_num_queries(1):
        Client().get(address, headers={"If-None-Match": tag})


def test_a_new_day_is_a_new_calendar(cast, settings):
    address = f"/calendar/{make_feed(member=cast.head)}/greens.ics"
    tag = Client().get(address)["ETag"]
    settings.FIXED_TODAY = cast.today + timedelta(days=1)
    assert Client().get(address, headers={"If-None-Match": tag}).status_code == 200


def test_the_same_record_gives_the_same_bytes(cast, drawn):
    address = f"/calendar/{make_feed(member=cast.head)}/greens.ics"
    assert Client().get(address).content == Client().get(address).content


@pytest.mark.parametrize("count", [1, 3])
def test_a_calendar_costs_the_same_for_one_green_and_for_three(cast, count, django_assert_num_queries):
    rebuilds = [
        cast.establishment,
        *(laid_green(cast.club, name) for name in ("Eighth", "Ninth")[: count - 1]),
    ]
    for one in rebuilds:
        drawn = issue_programme(establishment=one, by=cast.head, on=cast.today)
        planned, until = feed_to_come(drawn, cast), cast.today + timedelta(days=40)
        put_off(establishment=one, key=planned.key, by=cast.head, on=cast.today, until=until)
        note_defect(establishment=one, by=cast.head, what="Lip", place="", found_on=cast.today, due_on=until)
    address = f"/calendar/{make_feed(member=cast.head)}/greens.ics"
    Client().get(address)
    with django_assert_num_queries(11):
        Client().get(address)
