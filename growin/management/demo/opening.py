"""Decisions of the story: opened in spring by the committee, closed by the head greenkeeper."""

from datetime import date

from greens.models import Establishment
from growin.actions.decision import close_now, decide
from growin.agronomy.in_play import STOP_RULE
from growin.management.demo.teller import Teller
from growin.models import Pattern


def open_green(teller: Teller, rebuilt: Establishment, on: date, limited: bool = False) -> None:
    decide(
        establishment=rebuilt,
        by=teller.committee,
        from_day=on,
        pattern=Pattern.LIMITED if limited else Pattern.FULL,
        meeting_on=on,
        present="M. Thorn, the captain, the secretary; the head greenkeeper advising",
        stop_rule=STOP_RULE,
        reason="The committee followed the inspection of that week.",
    )


def close_green(teller: Teller, rebuilt: Establishment, on: date) -> None:
    reason = "Stop rule: joints torn at the back after two wet days of play, and footprints that stay."
    close_now(establishment=rebuilt, by=teller.head, reason=reason)
