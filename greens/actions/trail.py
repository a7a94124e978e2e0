"""Lines in the record of changes. Every write that people make leaves one."""

from datetime import date, datetime
from decimal import Decimal

from django.db import transaction

from greens.models import Club, Green, Membership, TrailLine
from greens.models.club import new_mark

#: What is logged day by day, by the nouns of its lines; every other line changes the frame around it too.
DAILY = frozenset({"entry", "readingset", "stepanswer", "daystate", "notice"})


def plain(value):
    """A value as JSON keeps it: days and moments in ISO form, rows by their words."""
    if isinstance(value, Decimal):
        return float(value)
    if isinstance(value, date | datetime):
        return value.isoformat()
    return value if value is None or isinstance(value, bool | int | float | str | list | dict) else str(value)


def write(
    *,
    club: Club,
    by: Membership | None,
    deed: str,
    row,
    green: Green | None = None,
    changes: dict | None = None,
) -> TrailLine:
    """One line: ``deed`` in plain words, ``changes`` as {field: [from, to]}."""
    noun = row._meta.model_name
    transaction.on_commit(lambda: mark_anew(club.pk, noun))
    return TrailLine.objects.create(
        club=club,
        by=by,
        deed=deed[:120],
        noun=noun,
        noun_pk=row.pk,
        green=green,
        changes=changes or {},
    )


def mark_anew(club_pk: int, noun: str = "") -> None:
    """Give the club a mark it never had: what was worked out of its record before no longer counts."""
    marks = ["trail_mark"] if noun in DAILY else ["trail_mark", "frame_mark"]
    Club.objects.filter(pk=club_pk).update(**{mark: new_mark() for mark in marks})


def change(row, values: dict) -> dict:
    """Set ``values`` on ``row``, save only what differs, and return it as {field: [from, to]}.

    Foreign keys compare by their row; numbers as what the column keeps.
    """
    changes = {}
    for name, new in values.items():
        old = getattr(row, name)
        if old != new:
            changes[name] = [plain(old), plain(new)]
            setattr(row, name, new)
    if changes:
        row.save(update_fields=list(changes))
    return changes


def save_changes(
    *, row, values: dict, club: Club, by: Membership, deed: str, green: Green | None = None
) -> dict:
    """Change a row and say so in the record of changes; nothing is written when nothing differs."""
    changes = change(row, values)
    if changes:
        write(club=club, by=by, deed=deed, row=row, green=green, changes=changes)
    return changes


def as_created(values: dict) -> dict:
    """The changes of a new row: everything came from nothing."""
    return {name: [None, plain(value)] for name, value in values.items() if value not in (None, "", [])}
