"""What to order: all greens together, product by product, against what is in the shed."""

import pytest

from growin.actions.programme import issue_programme
from growin.queries.amounts import RATES
from growin.queries.orders import orders
from growin.queries.shortage import to_come
from tests.cast import laid_green
from tests.entries import at, label
from tests.growin.test_stock import noted

pytestmark = pytest.mark.django_db
KG = 1000


@pytest.fixture
def two_greens(cast):
    eighth = laid_green(cast.club, "Eighth", area_m2=300)
    for rebuilt in (cast.establishment, eighth):
        issue_programme(establishment=rebuilt, by=cast.head, on=cast.today)
    return cast


def feeds(cast) -> list:
    return [step for step in to_come(cast.club, cast.today) if step.unit in RATES]


def needed(cast, percent: float) -> int:
    """g of a feed for each step over the area of its green: rate × area ÷ share of nitrogen."""
    areas = [(step.amount, step.programme.establishment.green.area_m2) for step in feeds(cast)]
    return sum(round(rate / 10 * area / percent * 100) for rate, area in areas)


def test_the_greens_are_added_up_and_the_shed_is_taken_off(two_greens):
    one = label(two_greens, lines={"N_total": 12})
    noted(two_greens, one, "counted", 3)
    (row,) = orders(two_greens.club, two_greens.today, 4).rows
    assert row.needed == needed(two_greens, 12)
    assert (row.to_order, row.places) == (row.needed - 3 * KG, "Seventh, Eighth")


def test_what_was_never_counted_is_ordered_whole(two_greens):
    label(two_greens, lines={"N_total": 12})
    (row,) = orders(two_greens.club, two_greens.today, 4).rows
    assert (row.stock, row.to_order) == (None, row.needed)


def test_where_two_products_fit_the_fuller_one_is_drawn_on_and_the_other_named(two_greens):
    bare, full = (
        label(two_greens, "Bare", lines={"N_total": 12}),
        label(two_greens, "Full", lines={"N_total": 12}),
    )
    noted(two_greens, full, "counted", 500)
    (row,) = orders(two_greens.club, two_greens.today, 4).rows
    assert (row.product, row.to_order, list(row.instead)) == (full.product, 0, [str(bare.product)])


def test_steps_for_which_the_store_has_nothing_are_said(two_greens):
    found = orders(two_greens.club, two_greens.today, 4)
    assert found.rows == ()
    assert len(found.unmet) == len(to_come(two_greens.club, two_greens.today))


def test_more_weeks_need_no_less(two_greens):
    label(two_greens, lines={"N_total": 12})
    sums = [orders(two_greens.club, two_greens.today, weeks).rows[0].needed for weeks in (2, 4, 8)]
    assert sums == sorted(sums)


@pytest.mark.parametrize("weeks", ["4", "", "0", "-1", "1e9", "x"])
def test_whatever_is_asked_for_a_page_answers(two_greens, as_, weeks):
    label(two_greens, lines={"N_total": 12})
    page = as_("committee").get(at(two_greens, "orders"), {"weeks": weeks})
    assert (page.status_code, page.context["weeks"]) == (200, 4)
