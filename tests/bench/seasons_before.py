"""The seasons before the newest: each its rows once more, a year earlier, copied within SQLite (decisions
come one after another, see there)."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from django.db import connection
from django.db.models import F, Max, Model

from greens import models as kept
from growin.models import Programme, ProgrammeStep, StepAnswer
from tests.bench.seasons import TODAY, YEAR, LongClub, club_of, diary, readings
from tests.bench.seasons_around import VERSIONS_A_SEASON, around, noon, programmes
from tests.rows import rows_of


@dataclass(frozen=True)
class Again:
    """What differs in a row of an earlier season: its days, its moments, the rows it hangs on (by the
    column of each), a number that counts up, and a word of which there may be one only."""

    days: tuple[str, ...] = ()
    moments: tuple[str, ...] = ()
    parents: dict[str, type[Model]] = field(default_factory=dict)
    number: str = ""
    word: str = ""


AGAIN: dict[type[Model], Again] = {
    kept.Entry: Again(("on",), ("logged_at",)),
    kept.EntryGreen: Again(("on",), parents={"entry_id": kept.Entry}),
    kept.EntryProduct: Again(parents={"entry_id": kept.Entry}),
    kept.EntryNutrient: Again(parents={"product_id": kept.EntryProduct}),
    kept.ReadingSet: Again(("on",), ("logged_at",)),
    kept.WeatherDay: Again(("on",)),
    kept.DayState: Again(("on",)),
    kept.StockLine: Again(("on",), ("made_at",)),
    kept.Analysis: Again(("on",), ("made_at",)),
    kept.Setting: Again(("in_force_from",), ("made_at",)),
    kept.Advice: Again(("on",), ("made_at",)),
    kept.TrailLine: Again((), ("at",)),
    kept.Notice: Again((), ("made_at", "seen_at", "lapsed_at"), word="key"),
    Programme: Again(("issued_on",), ("issued_at",), number="number"),
    ProgrammeStep: Again(("earliest", "likely", "latest"), (), {"programme_id": Programme}, word="key"),
    StepAnswer: Again(("on",), ("at",), word="key"),
}


def long_club(seasons: int, greens: int) -> tuple[LongClub, dict]:
    """A club with so many seasons behind it, and a row for every word in an address."""
    made = club_of(seasons, greens)
    rows = rows_of(made.head, made.rebuilds[0])
    with seasons_before(seasons - 1):
        for make in (diary, readings, around):
            make(made)
    with seasons_before(seasons - 1):  # drawn with the whole record behind it
        programmes(made)
    long_seen = kept.Notice.objects.filter(to=made.head, made_at__lt=noon(TODAY - YEAR))
    long_seen.update(seen_at=F("made_at"))
    newest = made.rebuilds[0].programmes.order_by("-number")[0].steps.all()[0]
    return made, rows | {"step_key": newest.key, "key": newest.key}


@contextmanager
def seasons_before(count: int) -> Iterator[None]:
    """What is kept within is kept again for each of so many seasons before."""
    last = {model: highest(model) for model in AGAIN}
    yield
    spans = {model: highest(model) - last[model] for model in AGAIN}
    with connection.constraint_checks_disabled(), connection.cursor() as cursor:
        for turn in range(1, count + 1):
            for model, again in AGAIN.items():
                cursor.execute(copying(model, again, turn, last[model], spans))


def highest(model: type[Model]) -> int:
    return model.objects.aggregate(last=Max("pk"))["last"] or 0


def copying(model: type[Model], again: Again, turn: int, last: int, spans: dict[type[Model], int]) -> str:
    """The statement that copies the rows above ``last`` into the season so many before."""
    said = {"id": f"id + {turn * spans[model]}", "client_id": "lower(hex(randomblob(16)))"}
    said |= {one: f"date(\"{one}\", '-{turn * 365} days')" for one in again.days}
    said |= {one: f"datetime(\"{one}\", '-{turn * 365} days')" for one in again.moments}
    said |= {one: f'"{one}" + {turn * spans[parent]}' for one, parent in again.parents.items()}
    said |= {again.number: f'"{again.number}" - {turn * VERSIONS_A_SEASON}'} if again.number else {}
    said |= {again.word: f"substr(\"{again.word}\", 1, 50) || ' {turn}'"} if again.word else {}
    columns = [one.column for one in model._meta.concrete_fields]
    names = ", ".join(f'"{one}"' for one in columns)
    values = ", ".join(said.get(one, f'"{one}"') for one in columns)
    table = model._meta.db_table
    upto = last + spans[model]
    return (
        f'INSERT INTO "{table}" ({names}) SELECT {values} FROM "{table}" WHERE id > {last} AND id <= {upto}'
    )
