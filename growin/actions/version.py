"""Versions of a programme: how one is written, and how it differs from the one before."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from greens.actions import trail
from greens.models import Establishment
from growin.models import Programme, ProgrammeStep
from growin.queries.standing import HAND


def hold(establishment: Establishment) -> Programme | None:
    """The version in force, with no other version coming between until this one is kept."""
    Establishment.objects.select_for_update().get(pk=establishment.pk)
    return establishment.programmes.first()


def steps_of(programme: Programme | None) -> list[ProgrammeStep]:
    return list(programme.steps.all()) if programme else []


def free_key(rows: Iterable[ProgrammeStep]) -> str:
    """Dropped steps keep their keys, so that no key is ever used twice."""
    own = [int(row.key.removeprefix(HAND)) for row in rows if row.key.startswith(HAND)]
    return f"{HAND}{max(own, default=0) + 1:02d}"


def by_hand(*, last: Programme | None, drawn: Mapping = MappingProxyType({}), **version) -> Programme:
    """A version that differs by the head greenkeeper's hand: drawn from the same facts as the last."""
    inputs, settings = (last.inputs, last.settings) if last else ({}, {})
    before = last.difference.get("drawn", {}) if last else {}
    return keep(last=last, inputs=inputs, settings=settings, drawn=before | drawn, **version)


def keep(*, establishment, by, on, why, last, rows, inputs, settings, deed, drawn, changes=None) -> Programme:
    """Write the next version with its steps, and a line in the record of changes."""
    difference = differing(steps_of(last), rows) | {"drawn": drawn}
    number = last.number + 1 if last else 1
    programme = Programme.objects.create(
        establishment=establishment,
        number=number,
        issued_on=on,
        by=by,
        why=why,
        inputs=inputs,
        settings=settings,
        difference=difference,
    )
    for row in rows:
        row.programme = programme
    ProgrammeStep.objects.bulk_create(rows)
    trail.write(
        club=establishment.green.club,
        by=by,
        deed=deed,
        row=programme,
        green=establishment.green,
        changes={"version": [last and last.number, number]} | (changes or counted(difference, last)),
    )
    return programme


def differing(before: list[ProgrammeStep], after: list[ProgrammeStep]) -> dict:
    """Steps moved {key: [from, to]}, added and gone [key], against the version before."""
    old, new = ({row.key: row for row in rows if not row.is_dropped} for rows in (before, after))
    both = [key for key in new if key in old]
    return {
        "moved": {
            key: [old[key].likely.isoformat(), new[key].likely.isoformat()]
            for key in both
            if old[key].likely != new[key].likely
        },
        "added": [key for key in new if key not in old],
        "gone": [key for key in old if key not in new],
    }


def counted(difference: dict, last: Programme | None) -> dict:
    """How many steps moved, came and went, as the record of changes says it."""
    if last is None:
        return {"steps": [0, len(difference["added"])]}
    return {f"steps {name}": [None, len(difference[name])] for name in ("moved", "added", "gone")}
