"""What was done since a programme was drawn, told although the oldest work no longer tells anything."""

from datetime import date, timedelta

from growin.agronomy.programme.done import Done
from growin.queries.since_drawn import work_since

DRAWN = date(2030, 4, 16)


def cuts(first: date, count: int, height_mm: float = 4.5) -> tuple:
    return tuple((first + timedelta(days=2 * n), height_mm) for n in range(count))


def test_new_work_is_counted_where_as_much_old_work_dropped_out_of_the_year_that_tells():
    before = cuts(DRAWN - timedelta(days=300), 150)
    after = (*before[40:], *cuts(DRAWN + timedelta(days=1), 12))
    assert list(work_since(Done(cuts=before), Done(cuts=after))) == ["12 cuts since"]


def test_a_height_put_right_is_no_cut_more():
    before = cuts(DRAWN - timedelta(days=20), 5)
    assert list(work_since(Done(cuts=before), Done(cuts=cuts(before[0][0], 5, 5.0)))) == []


def test_two_feeds_and_a_dressing_are_told_each():
    fed = ((DRAWN + timedelta(days=3), 6.0), (DRAWN + timedelta(days=12), 6.0))
    sanded = ((DRAWN + timedelta(days=5), 0.5),)
    assert list(work_since(Done(), Done(feeds=fed, dressings=sanded))) == [
        "2 feeds since",
        "1 dressing since",
    ]
