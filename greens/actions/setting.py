"""A club's own value for a constant of the trade: dated, with a reason, never undone but by a later one."""

from collections.abc import Iterable
from datetime import date, timedelta

from django.db import transaction

from greens.actions import trail
from greens.models import Club, Green, Membership, Setting
from greens.queries import settings as constants
from growin.agronomy.fields import DetailError
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.plain_words import day
from growin.agronomy.settings_table import DEFAULTS, check_setting

LATEST = timedelta(days=366)
LONGEST_WHY = 500
UNSAVED = 2**62


def check_override(
    *, club: Club, key: str, value: float, in_force_from: date, why: str, green: Green | None = None
) -> float:
    """The value that the change would replace, when the change can be meant.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot be: a value outside its range, thresholds that
        would contradict each other on any day to come, days gone by, no reason.
    """
    errors = _wrong_words(club, in_force_from, why, green)
    before = None
    try:
        _require_sound(club, _candidate(club, key, value, in_force_from, green))
        before = constants.in_force(club, in_force_from, green)[key]
    except ImpossibleValue as refused:
        errors["value"] = str(refused)
    if before == value:
        errors["value"] = "This is what holds already; write another value or leave it."
    if errors:
        raise DetailError(errors)
    return before


def _wrong_words(club: Club, in_force_from: date, why: str, green: Green | None) -> dict[str, str]:
    wrong, today = {}, club.local_today()
    if not why.strip():
        wrong["why"] = "Say why; the reason is shown wherever the value counts."
    elif len(why) > LONGEST_WHY:
        wrong["why"] = f"The reason has {len(why)} letters; at most {LONGEST_WHY} fit."
    if not today <= in_force_from <= today + LATEST:
        right = "no day gone by is judged anew" if in_force_from < today else "at most a year ahead"
        wrong["in_force_from"] = f"{day(in_force_from)} {in_force_from.year} is not possible; {right}."
    if green is not None and green.club_id != club.pk:
        wrong["green"] = "That green is not this club's."
    return wrong


def _candidate(club: Club, key: str, value: float, in_force_from: date, green: Green | None) -> Setting:
    """The row as it would be, sorted after every row of its day."""
    return Setting(pk=UNSAVED, club=club, green=green, key=key, value=value, in_force_from=in_force_from)


def _require_sound(club: Club, row: Setting) -> None:
    """Refuse what contradicts another threshold, for the club or any green, on that day or later."""
    if row.key not in DEFAULTS:
        check_setting(row.key, row.value)
    rows = [*club.settings.all(), row]
    greens = {row.green_id} if row.green_id else {None, *(one.green_id for one in rows)}
    days = sorted({one.in_force_from for one in rows if one.in_force_from >= row.in_force_from})
    for on in days:
        for green_id in greens:
            held = _held(rows, on, green_id)
            check_setting(row.key, held[row.key], held)


def _held(rows: Iterable[Setting], on: date, green_id: int | None) -> dict[str, float]:
    return constants.merged(
        one for one in rows if one.in_force_from <= on and one.green_id in (None, green_id)
    )


@transaction.atomic
def override(
    *,
    club: Club,
    by: Membership,
    key: str,
    value: float,
    why: str,
    in_force_from: date,
    green: Green | None = None,
) -> Setting:
    """A dated value of the club's own, for all its greens or for one.

    Raises
    ------
    DetailError
        As :func:`check_override`.
    """
    meant = {"club": club, "key": key, "value": value, "in_force_from": in_force_from, "green": green}
    before = check_override(**meant, why=why)
    row = Setting.objects.create(**meant, by=by, why=why.strip())
    deed = f"Set {DEFAULTS[key].words}: {why.strip()}"
    trail.write(club=club, by=by, deed=deed, row=row, green=green, changes={key: [before, value]})
    return row
