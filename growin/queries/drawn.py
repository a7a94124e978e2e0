"""What a programme is drawn from, as it stands now and as a version kept it; and the rows it comes to."""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, fields
from datetime import date

from django.core.cache import cache

from greens.actions import trail
from greens.models import Establishment
from growin.agronomy.climate import Climate
from growin.agronomy.programme import GreenFacts, Step, draw_programme, is_of_a_year
from growin.agronomy.programme.done import Done
from growin.agronomy.programme.shift import Drawing, Share, shares
from growin.agronomy.settings_table import default_values
from growin.models import Programme, ProgrammeStep
from growin.queries import facts, programme
from growin.queries.done import done_of

COPIED = tuple(one.name for one in ProgrammeStep._meta.concrete_fields if one.name not in ("id", "programme"))
DRAWN = tuple(name for name in COPIED if name not in ("by_hand", "is_dropped"))
CHANGED = ("likely", "amount", "what", "how")
PAIRS = ("cuts", "feeds", "dressings")
BY_KEY = ("steps", "last")
HOUR_S = 3600


@dataclass(frozen=True)
class Redrawn:
    """The next version as it would be: what it hangs on, its rows, and where the drawing would differ."""

    drawing: Drawing
    rows: tuple[ProgrammeStep, ...]
    otherwise: dict


def redrawn(establishment: Establishment, on: date, settings: dict, last: Programme | None) -> Redrawn:
    """Drawn from the record as it is. Steps by hand, dropped or answered stay as they stand, and of a
    green in play those of the year that lie behind.

    Raises
    ------
    ImpossibleValue
        For a record that cannot be.
    """
    drawing = now(establishment, on, settings)
    drawn = [as_row(step) for step in steps_of(drawing)]
    kept = {row.key: row for row in _kept(establishment, last)}
    if drawing.done.opened_on:
        kept |= {row.key: row for row in _gone_by(last, on, drawn)}
    rows = [copied(kept.pop(row.key)) if row.key in kept else row for row in drawn]
    rows += [copied(row) for row in kept.values()]
    return Redrawn(drawing, tuple(rows), drawn_otherwise(drawn, rows))


def now(establishment: Establishment, on: date, settings: dict) -> Drawing:
    """Facts, weather, settings and what was done, as they are on a day."""
    return Drawing(
        facts.facts_of(establishment, on),
        facts.climate_of(establishment, on),
        settings,
        done_of(establishment, on, settings),
    )


def steps_of(drawing: Drawing) -> tuple[Step, ...]:
    """Every step of a drawing; the same drawing is drawn once an hour."""

    def drawn() -> tuple[Step, ...]:
        return draw_programme(drawing.facts, drawing.climate, drawing.settings, done=drawing.done)

    return cache.get_or_set(f"drawn:{mark_of(drawing)}", drawn, HOUR_S)


def shares_of(old: Drawing, new: Drawing) -> dict[str, tuple[Share, ...]]:
    """What moves each step between two drawings; the same two are compared once an hour."""
    return cache.get_or_set(f"shares:{mark_of(old)}:{mark_of(new)}", lambda: shares(old, new), HOUR_S)


def mark_of(drawing: Drawing) -> str:
    """A digest of everything a drawing hangs on."""
    text = json.dumps([as_inputs(drawing), drawing.settings], sort_keys=True, default=float)
    return hashlib.sha256(text.encode()).hexdigest()


def _kept(establishment: Establishment, last: Programme | None) -> list[ProgrammeStep]:
    if last is None:
        return []
    steps = list(last.steps.all())
    answered = {one.key for one in programme.settled([establishment], steps)}
    return [row for row in steps if row.by_hand or row.is_dropped or row.key in answered]


def _gone_by(last: Programme | None, on: date, drawn: Iterable[ProgrammeStep]) -> list[ProgrammeStep]:
    """Steps of the year that lie behind: a new version plans no past, and what was planned stays said."""
    if last is None:
        return []
    anew = {row.key for row in drawn}
    behind = (row for row in last.steps.all() if row.likely < on and row.key not in anew)
    return [row for row in behind if is_of_a_year(row.key)]


# Rows --------------------------------------------------------------------------------------


def copied(row: ProgrammeStep) -> ProgrammeStep:
    return ProgrammeStep(**{name: getattr(row, name) for name in COPIED})


def as_row(step: Step) -> ProgrammeStep:
    return ProgrammeStep(**{name: getattr(step, name) for name in DRAWN} | {"cautions": list(step.cautions)})


def as_drawn(step: ProgrammeStep) -> dict:
    """What the head greenkeeper may change of a step, as plain data."""
    return {name: trail.plain(getattr(step, name)) for name in CHANGED}


def drawn_otherwise(drawn: Iterable[ProgrammeStep], rows: Iterable[ProgrammeStep]) -> dict:
    """Where the drawing differs from a step kept by hand: {key: {likely, amount, …}} as drawn."""
    own = {row.key: as_drawn(row) for row in rows if row.by_hand and not row.is_dropped}
    return {row.key: as_drawn(row) for row in drawn if own.get(row.key, as_drawn(row)) != as_drawn(row)}


# Inputs ------------------------------------------------------------------------------------


def as_inputs(drawing: Drawing) -> dict:
    """Facts, weather and work as plain data, so that a version says what it was drawn from."""
    return {
        "green": {key: _plain(value) for key, value in asdict(drawing.facts).items()},
        "normals_c": list(drawing.climate.normals_c),
        "spread_c": drawing.climate.spread_c,
        "measured_c": _plain(drawing.climate.daily),
        "done": {one.name: _plain(getattr(drawing.done, one.name)) for one in fields(Done)},
    }


def _plain(value):
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {_plain(key): _plain(one) for key, one in value.items()}
    if isinstance(value, frozenset):
        return sorted(value)
    return [_plain(one) for one in value] if isinstance(value, list | tuple) else value


def as_it_was(version: Programme) -> Drawing | None:
    """The drawing that a version kept; None for one that kept none."""
    inputs = version.inputs
    if "green" not in inputs:
        return None
    measured = {date.fromisoformat(day): mean for day, mean in inputs["measured_c"].items()}
    climate = Climate(tuple(inputs["normals_c"]), inputs["spread_c"], measured)
    done = inputs.get("done") or {"as_of": version.issued_on.isoformat()}
    return Drawing(_facts(inputs["green"]), climate, default_values() | version.settings, _done(done))


def _facts(plain: dict) -> GreenFacts:
    known = {one.name for one in fields(GreenFacts)}
    said = {key: value for key, value in plain.items() if key in known}
    laid = date.fromisoformat(said.pop("established_on"))
    return GreenFacts(**said | {"established_on": laid, "risks": tuple(said.get("risks", ()))})


def _done(plain: dict) -> Done:
    return Done(**{key: _done_value(key, value) for key, value in plain.items()})


def _done_value(key: str, value):
    if key == "passed":
        return frozenset(value)
    if key in PAIRS:
        return tuple((date.fromisoformat(on), amount) for on, amount in value)
    if key in BY_KEY:
        return {name: date.fromisoformat(on) for name, on in value.items()}
    return value and date.fromisoformat(value)
