"""Rows that stand once: made the first time, changed ever after, with one line in the trail."""

from greens.actions import trail
from greens.models import Club, Green, Membership


def keep(*, rows, key: dict, values: dict, club: Club, by: Membership, green: Green | None, words: str):
    """The row of ``rows`` under ``key`` with these values; none is made for nothing."""
    row = rows.filter(**key).first()
    if row is not None:
        trail.save_changes(row=row, values=values, club=club, by=by, deed=f"Changed {words}", green=green)
        return row
    given = trail.as_created(values)
    if not given:
        return None
    row = rows.create(**key, **values)
    trail.write(club=club, by=by, deed=f"Entered {words}", row=row, green=green, changes=given)
    return row
