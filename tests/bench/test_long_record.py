"""No page asks more of the database after many seasons than after one, and none takes much longer; the
whole record is taken away within little memory. ``python -m tests.bench`` has 18 greens and 20 seasons."""

import pytest

from growin.queries.years import MOST_YEARS
from tests.bench.books import memory
from tests.bench.gates import IN_FULL
from tests.bench.long_record import OF_SEVERAL_YEARS, as_json, compared, is_dear, side, table

pytestmark = [pytest.mark.bench, pytest.mark.django_db(transaction=True)]
GREENS, SEVERAL, SEASONS, ROUNDS = (18, MOST_YEARS, 20, 3) if IN_FULL else (2, 2, 3, 1)
AT_MOST = 1.3
MOST_MB = 200


def test_a_page_costs_no_more_after_many_seasons(today, capsys, tmp_path):
    short, long = (side(seasons, GREENS, with_pictures=IN_FULL) for seasons in (1, SEASONS))
    several = side(SEVERAL, GREENS, with_pictures=IN_FULL, only=OF_SEVERAL_YEARS)
    found = compared(short, several, long, ROUNDS, AT_MOST)
    with capsys.disabled():
        print(f"\n{table(found, SEASONS)}\n{as_json(found)}")
    if IN_FULL:
        written, held = memory(long, tmp_path)
        with capsys.disabled():
            print(
                f"{SEASONS} seasons out as ZIP and as workbook, {written:.1f} MB: {held:.0f} MB held at most"
            )
        assert held <= MOST_MB
    asks_more = {name: one.queries for name, one in found.items() if one.queries[1] > one.queries[0]}
    assert asks_more == {}
    assert short.pages.keys() == long.pages.keys()
    assert {name: one.worst for name, one in found.items() if is_dear(name, one, AT_MOST)} == {}
