"""A closed time for feeding, as rules on nitrate set one (common practice; the law of the place decides)."""

from datetime import date

import pytest

from growin.agronomy.closed_time import in_words, is_closed, read_day
from growin.agronomy.impossible import ImpossibleValue


@pytest.mark.parametrize(
    ("on", "closed"),
    [
        (date(2026, 10, 14), False),
        (date(2026, 10, 15), True),
        (date(2026, 12, 31), True),
        (date(2027, 1, 31), True),
        (date(2027, 2, 1), False),
    ],
)
def test_a_closed_time_may_reach_over_the_new_year(on, closed):
    assert is_closed(on, "10-15", "01-31") is closed


def test_or_lie_within_one_year():
    assert is_closed(date(2026, 7, 1), "06-01", "08-31")
    assert not is_closed(date(2026, 9, 1), "06-01", "08-31")


def test_without_both_its_ends_nothing_is_closed():
    assert not is_closed(date(2026, 7, 1), "06-01", "")
    assert not is_closed(date(2026, 7, 1), "", "")


def test_a_day_of_the_year_may_be_that_of_a_leap_year():
    assert (read_day("02-29"), in_words("02-29"), in_words("")) == ((2, 29), "29 February", "")


@pytest.mark.parametrize("text", ["13-01", "02-30", "October", "10/15", "10-15-2026", "-"])
def test_what_is_no_day_is_refused(text):
    with pytest.raises(ImpossibleValue, match="a month and a day such as 10-15"):
        read_day(text)
