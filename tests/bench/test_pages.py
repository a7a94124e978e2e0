"""A page costs at most two bare pages, and asks the database no more after ten seasons than after one."""

import pytest

from greens.models import Label
from tests.bench.history import lengthen
from tests.bench.measured import BARE, club_with_a_season, least_ms, pages, query_count, ratios, signed_in
from tests.bench.pages import ROUNDS, as_json, table

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
AT_MOST = 2.0


@pytest.fixture
def with_the_bare_page(settings):
    settings.ROOT_URLCONF = "tests.bench.bare"


def test_a_page_costs_at_most_two_bare_pages(today, with_the_bare_page, capsys):
    cast, rows = club_with_a_season()
    client = signed_in(cast)
    shown = pages(client, rows)
    least = least_ms(client, shown, ROUNDS)
    queries = {page.name: query_count(client, page) for page in shown}
    with capsys.disabled():
        print(f"\n{BARE}: {least[BARE]:.1f} ms\n{table(least, ratios(least), queries)}")
        print(as_json(least, ratios(least), queries))
    assert {name: ratio for name, ratio in ratios(least).items() if ratio > AT_MOST} == {}


def test_queries_of_a_page_do_not_grow_with_the_history(today):
    cast, rows = club_with_a_season(days=24)
    client = signed_in(cast)
    shown = pages(client, rows)
    before = {page.name: query_count(client, page) for page in shown}
    label = Label.objects.get(pk=rows["label_id"])
    lengthen(cast.head, cast.establishment, label, cast.today, days=240)
    after = {page.name: query_count(client, page) for page in shown}
    grown = {name: (before[name], after[name]) for name in before if after[name] > before[name]}
    assert grown == {}
