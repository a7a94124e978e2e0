"""A page costs at most two bare pages, and asks the database no more after ten seasons than after one."""

import pytest

from greens.models import Label
from tests.bench.gates import gate
from tests.bench.history import lengthen
from tests.bench.measured import club_with_a_season, costs, pages, signed_in
from tests.bench.pages import AGAIN, ROUNDS, as_json, table

pytestmark = [pytest.mark.bench, pytest.mark.django_db(transaction=True)]
AT_MOST = 2.0
#: What was worked out of a record is kept until the record changes. On the first visit after a change
#: these pages cost more than two bare ones; none may rise above this.
WHEN_CHANGED = {
    "season_report": 6.0,
    "green": 5.0,
    "redraw": 4.6,
    "today": 4.2,
    "programme": 3.9,
    "diary": 3.0,
    "budget": 2.8,
    "log_work": 2.8,
    "readiness": 3.0,
    "reading": 3.0,
    "day_sheet": 2.6,
    "weather_upload_check": 2.6,
}


def is_dear(name: str, found: dict) -> bool:
    """Whether it costs more than it may; what seems dear is measured again before it is called so."""
    cost = found[name]
    changed_at_most = gate(WHEN_CHANGED.get(name, AT_MOST))
    return cost.ratio > gate(AT_MOST) or cost.ratio_changed > changed_at_most


@pytest.fixture
def with_the_bare_page(settings):
    settings.ROOT_URLCONF = "tests.bench.bare"


def test_a_page_costs_at_most_two_bare_pages(today, with_the_bare_page, capsys):
    cast, rows = club_with_a_season()
    client = signed_in(cast)
    shown = pages(client, rows)
    found = costs(cast.club, client, shown, ROUNDS)
    found |= costs(cast.club, client, [page for page in shown if is_dear(page.name, found)], AGAIN)
    queries = {page.name: page.queries for page in shown}
    with capsys.disabled():
        print(f"\n{table(found, queries)}\n{as_json(found, queries)}")
    dear = {name: (cost.ratio, cost.ratio_changed) for name, cost in found.items() if is_dear(name, found)}
    assert dear == {}


def test_queries_of_a_page_do_not_grow_with_the_history(today, with_the_bare_page):
    cast, rows = club_with_a_season(days=24)
    client = signed_in(cast)
    before = {page.name: page.queries for page in pages(client, rows)}
    label = Label.objects.get(pk=rows["label_id"])
    lengthen(cast.head, cast.establishment, label, cast.today, days=240)
    after = {page.name: page.queries for page in pages(client, rows)}
    grown = {name: (before[name], after[name]) for name in before if after[name] > before[name]}
    assert grown == {}
