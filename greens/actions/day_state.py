"""How a green in play stands today: one tap."""

from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.choices import DayStateKind
from greens.models import DayState, Green, Membership
from growin.agronomy.fields import CHOICE, TEXT, DetailError, Field, clean_fields
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.plain_words import dated
from growin.agronomy.works import check_day

FIELDS = (
    Field("state", "State of the day", CHOICE, choices=tuple(DayStateKind.choices), required=True),
    Field("note", "Note", TEXT),
)
LONGEST_NOTE = 200


@transaction.atomic
def record_state(*, green: Green, by: Membership, on: date, state: str, note: str = "") -> DayState:
    """Keep the state of one green on one day; a later tap replaces the earlier one.

    Raises
    ------
    DetailError
        For an unknown state or a day still to come.
    """
    cleaned = {"note": ""} | _judged(green, on, state, note)
    row = DayState.objects.select_for_update().filter(green=green, on=on).first()
    before = row.state if row else None
    row, _ = DayState.objects.update_or_create(green=green, on=on, defaults=cleaned | {"by": by})
    if before != row.state:
        deed = f"{row.get_state_display()} on {dated(on)}"
        trail.write(
            club=green.club, by=by, deed=deed, row=row, green=green, changes={"state": [before, row.state]}
        )
    return row


def _judged(green: Green, on: date, state: str, note: str) -> dict:
    try:
        check_day("state of the day", on, today=green.club.local_today())
    except ImpossibleValue as refused:
        raise DetailError({"on": str(refused)}) from None
    if len(note) > LONGEST_NOTE:
        raise DetailError({"note": f"The note has {len(note)} letters; at most {LONGEST_NOTE} fit."})
    return clean_fields(FIELDS, {"state": state, "note": note})
