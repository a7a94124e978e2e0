"""What a long record costs: every page of a club beside the same page of a club of one season.

Both clubs have as many greens and lie in one database; pages are visited in turns, so that a busy machine
disturbs both alike, and the quickest of several rounds counts, in the processor's own time. A page is
visited right after the club's record changed, and again.
"""

import json
from collections.abc import Collection
from dataclasses import asdict, dataclass
from math import inf
from time import process_time

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from greens.actions.trail import mark_anew
from greens.models import Club
from tests.bench.gates import gate
from tests.bench.measured import inside, read
from tests.bench.seasons_before import long_club

#: A file of the whole record is as long as the record; its memory is measured instead.
WHOLE_RECORD = ("fair_copy_workbook", "fair_copy_zip")
#: What is drawn or set in print: dear in itself, so that only the whole measurement visits it.
PICTURES = (
    "budget_picture", "fan", "forecast_picture", "ladder", "reading_line", "reading_map", "season_picture",
    "season_report_pdf", "season_reports_pdf", "section", "statement", "strip", "trend_picture",
    "years_picture",
)  # fmt: skip
#: What lays the last years side by side: after one season there is nothing to lay there yet, so these stand
#: beside a club of as many seasons as they show.
OF_SEVERAL_YEARS = frozenset({
    "years", "years_picture", "trend_picture", "season_picture", "strip", "ladder", "season_report",
    "season_reports", "season_report_pdf", "season_reports_pdf",
})  # fmt: skip
#: How often, and how many visits at a time, what seems dear is visited again while it does: single visits to
#: a few milliseconds' work swing.
AGAIN, AT_A_TIME = 5, 2
#: What is known to miss the target after twenty seasons, and above which ratio it may not rise. The statement
#: is set again until it fits, and a club that has changed twenty thresholds needs one try more.
KNOWN = {"statement": 1.6}


@dataclass(frozen=True)
class Side:
    """A club of so many seasons, a client of its head greenkeeper, and where its pages are, by name, with
    the queries of the first visit to each."""

    club: Club
    client: Client
    pages: dict[str, str]
    queries: dict[str, int]


@dataclass
class Compared:
    """The quickest visits in ms, (short record, long record): right after a change, and again; and queries
    of each."""

    queries: tuple[int, int]
    changed_ms: tuple[float, float] = (inf, inf)
    again_ms: tuple[float, float] = (inf, inf)

    @property
    def ratio_changed(self) -> float:
        return round(self.changed_ms[1] / self.changed_ms[0], 2)

    @property
    def ratio_again(self) -> float:
        return round(self.again_ms[1] / self.again_ms[0], 2)

    @property
    def worst(self) -> float:
        return max(self.ratio_changed, self.ratio_again)


def side(seasons: int, greens: int, with_pictures: bool, only: Collection[str] | None = None) -> Side:
    """A club with every page that it has, or those of these names."""
    made, rows = long_club(seasons, greens)
    client = Client(raise_request_exception=False)
    client.force_login(made.head.person)
    found = Side(made.club, client, {}, {})
    for name, path in inside(rows, only):
        if name not in WHOLE_RECORD and (with_pictures or name not in PICTURES):
            with CaptureQueriesContext(connection) as seen:
                answer = read(client, path)
            if answer.status_code == 200:
                found.pages[name], found.queries[name] = path, len(seen)
    return found


def compared(short: Side, several: Side, long: Side, rounds: int, most: float) -> dict[str, Compared]:
    """Every page of a club of one season, or of ``several`` where it lays so many side by side, and of a long
    record; what seems dear is measured again before it is called so."""
    beside = {name: several if name in OF_SEVERAL_YEARS else short for name in short.pages}
    both = {name: (beside[name], long) for name in short.pages if name in long.pages}
    found = {name: Compared(tuple(side.queries[name] for side in sides)) for name, sides in both.items()}
    visit(found, both, rounds)
    for _ in range(AGAIN):
        dear = {name: one for name, one in found.items() if is_dear(name, one, most)}
        visit(dear, both, AT_A_TIME)
    return found


def is_dear(name: str, one: Compared, most: float) -> bool:
    """Whether a long record makes it dearer than it may."""
    return one.worst > gate(max(most, KNOWN.get(name, 0)))


def visit(found: dict[str, Compared], both: dict[str, tuple[Side, Side]], rounds: int) -> None:
    """More rounds of visits; what is found is the quickest of all."""
    for _ in range(rounds):
        for name, one in found.items():
            visits = [both_visits(side, name) for side in both[name]]
            one.changed_ms = tuple(map(min, one.changed_ms, (changed for changed, _ in visits)))
            one.again_ms = tuple(map(min, one.again_ms, (again for _, again in visits)))


def both_visits(side: Side, name: str) -> tuple[float, float]:
    mark_anew(side.club.pk)
    return milliseconds(side, name), milliseconds(side, name)


def milliseconds(side: Side, name: str) -> float:
    began = process_time()
    read(side.client, side.pages[name])
    return (process_time() - began) * 1000


def table(found: dict[str, Compared], seasons: int) -> str:
    """The dearest first: ms at one season and at many with their ratio, after a change and again; queries."""
    head = f"{'page':<24}{'changed, ms: 1':>15}{seasons:>8}{'ratio':>7}"
    lines = [f"{head}{'again: 1':>10}{seasons:>8}{'ratio':>7}{'queries: 1':>12}{seasons:>5}"]
    for name, one in sorted(found.items(), key=lambda pair: -pair[1].worst):
        (first, first_long), (again, again_long) = one.changed_ms, one.again_ms
        lines.append(
            f"{name:<24}{first:>15.1f}{first_long:>8.1f}{one.ratio_changed:>7.2f}"
            f"{again:>10.1f}{again_long:>8.1f}{one.ratio_again:>7.2f}{one.queries[0]:>12}{one.queries[1]:>5}"
        )
    return "\n".join(lines)


def as_json(found: dict[str, Compared]) -> str:
    return json.dumps({name: asdict(one) for name, one in found.items()})
