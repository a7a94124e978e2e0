"""A member's calendar as RFC 5545 wants it: all-day events of the club's local days, one for each thing.

Nothing in it depends on when it is written, so that the same record gives the same bytes: DTSTAMP, in a
calendar without METHOD, is the moment at which the thing itself last changed (RFC 5545, 3.8.7.2).
"""

import re
from collections.abc import Iterable
from datetime import timedelta
from functools import singledispatch
from urllib.parse import urlsplit

from django.conf import settings
from django.urls import reverse
from icalendar import Calendar, Event, Timezone, vText

from greens import units
from greens.models import Club, Defect, Establishment
from growin.agronomy.in_play import Recheck
from growin.agronomy.plain_words import dated
from growin.models import Decision, Proposal
from growin.queries.feed import Dated
from growin.queries.standing import PUT_OFF, Standing

PRODUCT = "-//Grow-in//Calendar of a greens record//EN"
ASK_AGAIN = timedelta(hours=2)
DAY = timedelta(days=1)
#: RFC 5545 knows no control characters in text but the tab.
UNWRITABLE = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")


def written(club: Club, days: Iterable[Dated]) -> bytes:
    """The whole calendar; figures in the units in which the page speaks (:func:`greens.units.shown_in`)."""
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    for name in ("name", "x-wr-calname"):
        calendar.add(name, vText(clean(f"{club.name}: greens")))
    calendar.add("refresh-interval", ASK_AGAIN, parameters={"VALUE": "DURATION"})
    events = [event(club, one) for one in sorted(days, key=lambda one: (one.on, name_of(one.row, one)))]
    for one in events or [Timezone.from_tzid(club.time_zone)]:  # an empty calendar is none (3.6)
        calendar.add_component(one)
    return calendar.to_ical()


def event(club: Club, one: Dated) -> Event:
    """One thing on its day; it takes no time off anybody's day, so that it hides no meeting."""
    said = Event()
    said.add("uid", f"{name_of(one.row, one)}@{urlsplit(settings.SITE_URL).hostname}")
    said.add("dtstamp", one.changed_at)
    said.add("last-modified", one.changed_at)
    said.add("sequence", one.changes)
    said.add("dtstart", one.on)
    said.add("dtend", one.on + DAY)
    said.add("summary", clean(f"{one.rebuild.green}: {head_of(one.row)}"))
    said.add("description", clean("\n\n".join(filter(None, text_of(one.row, one)))))
    said.add("location", clean(f"{one.rebuild.green}, {club.name}"))
    said.add("url", settings.SITE_URL + page_of(one.row, one.rebuild))
    said.add("status", "TENTATIVE" if isinstance(one.row, Proposal) else "CONFIRMED")
    said.add("transp", "TRANSPARENT")
    return said


def clean(text: str) -> str:
    """Text of ours or of people's as a calendar may hold it."""
    return UNWRITABLE.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def at(name: str, rebuild: Establishment, *more) -> str:
    return reverse(name, args=[rebuild.green.club.slug, *more])


# ---- what each kind of thing is called, and says -----------------------------------------------------


@singledispatch
def name_of(row, one: Dated) -> str:
    """What it is called for ever, whatever becomes of its day and words."""
    return f"{row._meta.model_name}-{row.pk}"


@singledispatch
def head_of(row) -> str:
    """It in one line."""
    raise TypeError(row)


@singledispatch
def text_of(row, one: Dated) -> tuple[str, ...]:
    """Its paragraphs; empty ones are left out."""
    raise TypeError(row)


@singledispatch
def page_of(row, rebuild: Establishment) -> str:
    """The page of the site that tells more."""
    return at("readiness", rebuild, rebuild.green_id)


@name_of.register
def _(row: Standing, one: Dated) -> str:
    return f"step-{one.rebuild.pk}-{row.step.key}"


@head_of.register
def _(row: Standing) -> str:
    what, how_much = row.step.what, row.step.planned
    return units.said(what if not how_much or how_much in what else f"{what}, {how_much}")


@text_of.register
def _(row: Standing, one: Dated) -> tuple[str, ...]:
    step = row.step
    put_off = f"Put off until {dated(one.on)}." if row.state == PUT_OFF else ""
    between = f"Likely {dated(step.likely)}; from {dated(step.earliest)} to {dated(step.latest)}."
    gate = f"Once {units.said(step.gate)}." if step.gate else ""
    how_much = f"How much: {units.said(step.planned)}." if step.planned else ""
    return put_off, between, how_much, gate, units.said(step.how), sentence(units.said(step.why))


@page_of.register
def _(row: Standing, rebuild: Establishment) -> str:
    return at("step", rebuild, rebuild.green_id, row.step.key)


@name_of.register
def _(row: Recheck, one: Dated) -> str:
    return f"look-{one.rebuild.pk}-{one.on - timedelta(days=row.day)}-{row.day}"


@head_of.register
def _(row: Recheck) -> str:
    return f"look again, day {row.day} in play"


@text_of.register
def _(row: Recheck, one: Dated) -> tuple[str, ...]:
    return ("Read the bars again and walk it with the stop rule in hand.",)


@head_of.register
def _(row: Defect) -> str:
    return f"contractor's defect due: {row.what}"


@text_of.register
def _(row: Defect, one: Dated) -> tuple[str, ...]:
    return row.place, f"Found on {dated(row.found_on)}; to be put right by {dated(row.due_on)}."


@page_of.register
def _(row: Defect, rebuild: Establishment) -> str:
    return at("rebuild", rebuild, rebuild.pk)


@head_of.register
def _(row: Proposal) -> str:
    return f"proposed for opening, {row.get_pattern_display().lower()}"


@text_of.register
def _(row: Proposal, one: Dated) -> tuple[str, ...]:
    return f"Proposed on {dated(row.made_on)}, not decided yet.", f"The verdict that day: {row.verdict}."


@page_of.register
def _(row: Proposal, rebuild: Establishment) -> str:
    return at("proposal", rebuild, row.pk)


@head_of.register
def _(row: Decision) -> str:
    return f"opens, {row.get_pattern_display().lower()}"


@text_of.register
def _(row: Decision, one: Dated) -> tuple[str, ...]:
    against = "Decided against the verdict." if row.is_against_verdict else ""
    stop_rule = f"Stop rule: {row.stop_rule}" if row.stop_rule else ""
    return f"Decided on {dated(row.made_on)}.", against, stop_rule


@page_of.register
def _(row: Decision, rebuild: Establishment) -> str:
    return at("decision", rebuild, row.pk)


def sentence(words: str) -> str:
    """Words as a sentence: "Why: …" begins with a capital and ends with a stop."""
    return f"{words[0].upper()}{words[1:]}." if words else ""
