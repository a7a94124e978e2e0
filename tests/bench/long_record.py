"""What a long record costs: every page of a club beside the same page of a club of one season.

Both clubs have as many greens and lie in one database; pages are visited in turns, so that a busy machine
disturbs both alike, and the quickest of several rounds counts, in the processor's own time. A page is
visited right after the club's record changed, and again.
"""

from dataclasses import dataclass
from math import inf
from time import process_time

from django.test import Client

from greens.actions.trail import mark_anew
from greens.models import Club
from tests.bench.measured import Page, inside, query_count, read
from tests.bench.seasons_before import long_club

#: A file of the whole record is as long as the record; its memory is measured instead.
WHOLE_RECORD = ("fair_copy_workbook", "fair_copy_zip")


@dataclass(frozen=True)
class Side:
    """A club of so many seasons, a client of its head greenkeeper, and its pages by name."""

    club: Club
    client: Client
    pages: dict[str, Page]


@dataclass
class Compared:
    """The quickest visits in ms, (short record, long record): right after a change, and again; and queries
    of each right after a change."""

    changed_ms: tuple[float, float] = (inf, inf)
    again_ms: tuple[float, float] = (inf, inf)
    queries: tuple[int, int] = (0, 0)

    @property
    def ratio_changed(self) -> float:
        return round(self.changed_ms[1] / self.changed_ms[0], 2)

    @property
    def ratio_again(self) -> float:
        return round(self.again_ms[1] / self.again_ms[0], 2)

    @property
    def worst(self) -> float:
        return max(self.ratio_changed, self.ratio_again)


def side(seasons: int, greens: int) -> Side:
    made, rows = long_club(seasons, greens)
    client = Client(raise_request_exception=False)
    client.force_login(made.head.person)
    places = [(name, path) for name, path in inside(rows) if name not in WHOLE_RECORD]
    shown = {name: Page(name, path, "") for name, path in places if read(client, path).status_code == 200}
    return Side(made.club, client, shown)


def in_both(short: Side, long: Side) -> list[str]:
    """Pages that both clubs show."""
    return [name for name in short.pages if name in long.pages]


def in_one_only(short: Side, long: Side) -> set[str]:
    return short.pages.keys() ^ long.pages.keys()


def count_queries(found: dict[str, Compared], short: Side, long: Side) -> None:
    for name, one in found.items():
        one.queries = tuple(query_count(side.club, side.client, side.pages[name]) for side in (short, long))


def visit(found: dict[str, Compared], short: Side, long: Side, rounds: int) -> None:
    """More rounds of visits; what is found is the quickest of all."""
    for _ in range(rounds):
        for name, one in found.items():
            visits = [both_visits(side, name) for side in (short, long)]
            one.changed_ms = tuple(map(min, one.changed_ms, (changed for changed, _ in visits)))
            one.again_ms = tuple(map(min, one.again_ms, (again for _, again in visits)))


def both_visits(side: Side, name: str) -> tuple[float, float]:
    mark_anew(side.club.pk)
    return milliseconds(side, name), milliseconds(side, name)


def milliseconds(side: Side, name: str) -> float:
    began = process_time()
    read(side.client, side.pages[name].path)
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
