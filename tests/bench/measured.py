"""What is measured: every page of a club, beside the bare page."""

from dataclasses import dataclass
from time import perf_counter

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from greens.models import Label
from growin.actions.programme import issue_programme
from tests.bench.history import lengthen
from tests.cast import Cast, whole_cast
from tests.house.addresses import addresses
from tests.rows import rows_of

BARE = "bare page"
SEASON_DAYS = 150


@dataclass(frozen=True)
class Page:
    name: str
    path: str


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


def pages(client: Client, rows: dict) -> list[Page]:
    """Every address in a club that shows a page."""
    inside = [Page(str(one), one.filled(rows)) for one in addresses() if one.is_in_a_club]
    return [page for page in inside if shows_a_page(read(client, page.path))]


def read(client: Client, path: str):
    """The answer, read to its end, so that a file behind it is closed."""
    answer = client.get(path)
    answer.getvalue()
    return answer


def shows_a_page(answer) -> bool:
    return answer.status_code == 200 and answer.headers["Content-Type"].startswith("text/html")


def query_count(client: Client, page: Page) -> int:
    with CaptureQueriesContext(connection) as seen:
        read(client, page.path)
    return len(seen)


def milliseconds(client: Client, path: str) -> float:
    began = perf_counter()
    client.get(path)
    return (perf_counter() - began) * 1000


def least_ms(client: Client, shown: list[Page], rounds: int) -> dict[str, float]:
    """The quickest of ``rounds`` visits to each page, taken in turns with the bare one."""
    visitors = {BARE: (Client(), "/bare/")} | {page.name: (client, page.path) for page in shown}
    least = dict.fromkeys(visitors, float("inf"))
    for _ in range(rounds):
        for name, visit in visitors.items():
            least[name] = min(least[name], milliseconds(*visit))
    return least


def ratios(least: dict[str, float]) -> dict[str, float]:
    """How many bare pages each page costs, the dearest first."""
    costs = {name: round(ms / least[BARE], 2) for name, ms in least.items() if name != BARE}
    return dict(sorted(costs.items(), key=lambda one: -one[1]))
