"""A club with something on every page, and the addresses of those pages."""

from collections.abc import Iterator

from playwright.sync_api import Page

from growin.actions.programme import issue_programme
from tests.cast import Cast
from tests.growin.ripe import make_ready
from tests.house.addresses import addresses
from tests.rows import rows_of


def furnish(cast: Cast) -> dict[str, object]:
    """One row of every noun, a whole programme and a whole set of readings; what fills the addresses."""
    rows = rows_of(cast.head, cast.establishment)
    make_ready(cast)
    drawn = issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    step = drawn.steps.filter(kind="feed").first()
    return rows | {"key": step.key, "step_key": step.key, "step_id": step.pk, "number": drawn.number}


def opened(page: Page, url: str, rows: dict[str, object], app: str) -> Iterator[str]:
    """Opens every page of the club, of one app, that this member may see, and says its address."""
    ours = [one for one in addresses() if one.is_in_a_club and one.view.__module__.startswith(app)]
    for path in (one.filled(rows) for one in ours if one.is_a_page):
        answer = page.request.get(url + path)
        if answer.ok and "text/html" in answer.headers["content-type"]:
            page.goto(url + path)
            yield path
