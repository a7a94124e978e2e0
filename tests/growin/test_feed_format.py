"""The calendar keeps the rules of RFC 5545 whatever people wrote; section numbers are of that document."""

import re
from datetime import UTC, date, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from greens.models import Club, Defect, Establishment, Green
from growin.agronomy.in_play import Recheck
from growin.feed import written
from growin.models import Decision, Pattern, Programme, ProgrammeStep, Proposal
from growin.queries.feed import Dated
from growin.queries.standing import DUE, Standing

LONGEST_LINE = 75  # octets, without the line break (3.1)
WANTED = {"UID", "DTSTAMP"}  # of every event (3.6.1); DTSTART too, since there is no METHOD
ONCE = {"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "LOCATION", "SEQUENCE"} | {
    "STATUS",
    "TRANSP",
    "URL",
    "LAST-MODIFIED",
}
CONTROLS = re.compile(rb"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
NAMED = re.compile(r"[A-Z0-9-]+[;:]")
#: A comma, semicolon or backslash in text has a backslash before it; a line break is \\n (3.3.11).
ESCAPED = re.compile(r"(?:[^\\,;]|\\[\\,;nN])*")
TEXTS = ("SUMMARY", "DESCRIPTION", "LOCATION", "NAME", "X-WR-CALNAME")

CLUB = Club(pk=1, slug="marram-links", name="Marram Links", time_zone="Europe/London")
days = st.dates(date(2020, 1, 1), date(2040, 12, 31))
moments = st.datetimes(datetime(2020, 1, 1), datetime(2040, 1, 1), timezones=st.just(UTC))
texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=200)


def rebuild(name: str, club: str) -> Establishment:
    said = Club(pk=1, slug="marram-links", name=club, time_zone="Europe/London")
    return Establishment(pk=3, green=Green(pk=7, name=name, club=said))


def step(text: str, on: date, place: Establishment) -> Standing:
    row = ProgrammeStep(
        key="feed-02", programme=Programme(establishment=place, number=1), earliest=on, likely=on, latest=on,
        amount=6, unit="kg N/ha", what=text, how=text, why=text, gate=text,
    )  # fmt: skip
    return Standing(row, DUE)


def row_of(kind: str, text: str, on: date, place: Establishment):
    """Anything that a calendar may hold, with this text wherever people write."""
    return {
        "step": lambda: step(text, on, place),
        "look": lambda: Recheck(on, 7, DUE),
        "defect": lambda: Defect(pk=5, what=text, place=text, found_on=on, due_on=on),
        "proposal": lambda: Proposal(
            pk=5, opening_on=on, made_on=on, pattern=Pattern.FULL, verdict="not met"
        ),
        "decision": lambda: Decision(
            pk=5, from_day=on, made_on=on, pattern=Pattern.FULL, stop_rule=text, is_against_verdict=True
        ),
    }[kind]()


@st.composite
def dated(draw) -> Dated:
    place = rebuild(draw(texts), draw(texts))
    on = draw(days)
    kind = draw(st.sampled_from(["step", "look", "defect", "proposal", "decision"]))
    return Dated(row_of(kind, draw(texts), on, place), place, on, draw(st.integers(0, 999)), draw(moments))


def lines(calendar: bytes) -> list[str]:
    """Unfolded (3.1)."""
    return calendar.decode().replace("\r\n ", "").removesuffix("\r\n").split("\r\n")


def parted(line: str) -> tuple[str, str]:
    """Name and value, the parameters left out."""
    head, _, value = line.partition(":")
    return head.partition(";")[0], value


some = st.lists(dated(), max_size=3)


@given(some)
def test_no_line_is_longer_than_75_octets_and_every_one_ends_with_cr_lf(rows):
    said = written(CLUB, rows)
    assert said.endswith(b"\r\n")
    assert [one for one in said.split(b"\r\n") if len(one) > LONGEST_LINE] == []
    assert (b"\n" in said.replace(b"\r\n", b""), b"\r" in said.replace(b"\r\n", b"")) == (False, False)


@given(some)
def test_no_character_is_torn_in_two_by_a_fold(rows):
    """Each physical line is whole UTF-8 by itself: some calendars decode before they unfold."""
    for line in written(CLUB, rows).split(b"\r\n"):
        line.decode()


@given(some)
def test_no_control_character_is_written(rows):
    assert CONTROLS.search(written(CLUB, rows)) is None


@given(some)
def test_every_line_has_a_name_and_text_is_escaped(rows):
    for line in lines(written(CLUB, rows)):
        name, value = parted(line)
        assert NAMED.match(line), line
        assert name not in TEXTS or ESCAPED.fullmatch(value), line


@given(some)
def test_a_calendar_is_a_calendar(rows):
    said = [parted(line) for line in lines(written(CLUB, rows))]
    assert (said[0], said[-1]) == (("BEGIN", "VCALENDAR"), ("END", "VCALENDAR"))
    assert [name for name, _ in said].count("PRODID") == 1
    assert ("VERSION", "2.0") in said
    assert len([one for one in said if one[0] == "BEGIN"]) > 1  # at least one component (3.6)
    assert "METHOD" not in dict(said)


@given(st.lists(dated(), min_size=1, max_size=3))
def test_every_event_has_what_an_event_must_and_nothing_twice(rows):
    for event in Calendar.from_ical(written(CLUB, rows)).walk("VEVENT"):
        assert set(event) >= WANTED | {"DTSTART"}
        assert [name for name in ONCE if isinstance(event.get(name), list)] == []
        assert event.decoded("DTEND") == event.decoded("DTSTART") + timedelta(days=1)
        assert {event[name].params.get("VALUE") for name in ("DTSTART", "DTEND")} == {"DATE"}


def as_read(text: str) -> str:
    """What a calendar gives back: one kind of line break, nothing that cannot be written."""
    whole = text.replace("\r\n", "\n").replace("\r", "\n")
    return CONTROLS.sub(b"", whole.encode()).decode()


@given(dated())
def test_a_calendar_reads_what_was_written(one):
    read = Calendar.from_ical(written(CLUB, [one])).walk("VEVENT")[0]
    assert (read.decoded("DTSTART"), int(read["SEQUENCE"])) == (one.on, one.changes)
    assert read.decoded("DTSTAMP") == read.decoded("LAST-MODIFIED") == one.changed_at.replace(microsecond=0)
    assert read["SUMMARY"].startswith(as_read(f"{one.rebuild.green}: "))


@given(texts)
def test_the_words_of_a_defect_come_back_as_they_were_written(text):
    place = rebuild("Seventh", "Marram Links")
    row = row_of("defect", text, date(2026, 4, 16), place)
    said = written(CLUB, [Dated(row, place, row.due_on, 0, datetime(2026, 4, 16, tzinfo=UTC))])
    read = Calendar.from_ical(said).walk("VEVENT")[0]
    assert read["SUMMARY"] == as_read(f"Seventh: contractor's defect due: {text}")
