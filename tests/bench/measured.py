"""What is measured: every page of a club, beside the bare page."""

import functools
import re
from collections.abc import Collection
from dataclasses import dataclass
from time import process_time

from django.core.cache import cache
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from greens.actions.trail import mark_anew
from greens.models import Club, Label
from growin.actions.programme import issue_programme
from tests.bench import bare
from tests.bench.history import lengthen
from tests.cast import Cast, whole_cast
from tests.house.addresses import NO_PAGE, addresses
from tests.rows import rows_of

FIELDS_OF_A_PAGE = re.compile(rb"<select|<textarea|<input(?![^>]*hidden)")
SEASON_DAYS = 150


@dataclass(frozen=True)
class Page:
    """A page of the site, the bare page of its weight, and the queries where nothing was worked out before:
    what it asks at most."""

    name: str
    path: str
    bare_path: str
    queries: int


def club_with_a_season(days: int = SEASON_DAYS) -> tuple[Cast, dict]:
    """The cast, its rows, a programme and a season behind it."""
    cast = whole_cast()
    rows = rows_of(cast.head, cast.establishment)
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    lengthen(cast.head, cast.establishment, Label.objects.get(pk=rows["label_id"]), cast.today, days)
    return cast, rows


def signed_in(cast: Cast, role: str = "head") -> Client:
    client = Client(raise_request_exception=False)  # a broken page fails where every door is tried
    client.force_login(cast[role].person)
    return client


def pages(client: Client, rows: dict, only: Collection[str] | None = None) -> list[Page]:
    """Every address in a club that shows a page, or those of these names; one without rows fails where every
    door is tried."""
    on_screen = [(name, path) for name, path in inside(rows, only) if not path.endswith(NO_PAGE)]
    answers = [(name, path, *first_visit(client, path)) for name, path in on_screen]
    return [
        Page(name, path, as_heavy_as(client, answer.content), queries)
        for name, path, answer, queries in answers
        if shows_a_page(answer)
    ]


def inside(rows: dict, only: Collection[str] | None = None) -> list[tuple[str, str]]:
    """Name and place of every address in a club for which there are rows, or of those of these names."""
    there = [one for one in addresses() if one.is_in_a_club and one.words <= set(rows)]
    return [(str(one), one.filled(rows)) for one in there if only is None or str(one) in only]


def as_heavy_as(client: Client, content: bytes) -> str:
    """The address of the bare page with as many fields and as many bytes, never below the smallest."""
    fields = max(len(FIELDS_OF_A_PAGE.findall(content)), bare.FIELDS)
    least, double = (bytes_of_bare(client, rows, fields) for rows in (bare.ROWS, 2 * bare.ROWS))
    more = (len(content) - least) * bare.ROWS // (double - least)
    return at(bare.ROWS + max(0, more), fields)


@functools.cache
def bytes_of_bare(client: Client, rows: int, fields: int) -> int:
    """Many pages have as many fields; their bare page is asked for once."""
    return len(client.get(at(rows, fields)).content)


def at(rows: int, fields: int) -> str:
    return f"/bare/{rows}/{fields}/"


def read(client: Client, path: str):
    """The answer, read to its end, so that a file behind it is closed."""
    answer = client.get(path)
    answer.getvalue()
    return answer


def first_visit(client: Client, path: str):
    """The answer where nothing was worked out before, and how many queries it took."""
    cache.clear()
    with CaptureQueriesContext(connection) as seen:
        answer = read(client, path)
    return answer, len(seen)


def shows_a_page(answer) -> bool:
    return answer.status_code == 200 and answer.headers["Content-Type"].startswith("text/html")


def milliseconds(client: Client, path: str) -> float:
    began = process_time()
    client.get(path)
    return (process_time() - began) * 1000


@dataclass(frozen=True)
class Cost:
    """The quickest visits in milliseconds: to a page right after something in the club's record changed,
    to the page again, and to the bare page of its weight."""

    changed_ms: float
    page_ms: float
    bare_ms: float

    @property
    def ratio(self) -> float:
        return round(self.page_ms / self.bare_ms, 2)

    @property
    def ratio_changed(self) -> float:
        return round(self.changed_ms / self.bare_ms, 2)


def costs(club: Club, client: Client, shown: list[Page], rounds: int) -> dict[str, Cost]:
    """Each visited in turns, all of them again in every round; the dearest first."""
    stranger = Client()
    visits = {page: ([], [], []) for page in shown}
    for _ in range(rounds):
        for page, (changed, again, plain) in visits.items():
            mark_anew(club.pk)
            changed.append(milliseconds(client, page.path))
            again.append(milliseconds(client, page.path))
            plain.append(milliseconds(stranger, page.bare_path))
    found = {page.name: Cost(*(min(one) for one in three)) for page, three in visits.items()}
    return dict(sorted(found.items(), key=lambda one: -one[1].ratio))
