from datetime import date

import pytest

from growin.agronomy import season


@pytest.mark.parametrize(
    ("day", "latitude_deg", "expected"),
    [
        (date(2025, 9, 1), 54, season.AUTUMN),
        (date(2026, 2, 28), 54, season.AUTUMN),
        (date(2026, 3, 1), 54, season.IN_GROWTH),
        (date(2026, 8, 31), 54, season.IN_GROWTH),
        (date(2026, 3, 1), -38, season.AUTUMN),
        (date(2026, 8, 31), -38, season.AUTUMN),
        (date(2026, 9, 1), -38, season.IN_GROWTH),
        (date(2026, 2, 28), -38, season.IN_GROWTH),
    ],
)
def test_autumn_laying_runs_september_to_february_and_six_months_later_in_the_south(
    day, latitude_deg, expected
):
    assert season.season_of_laying(day, latitude_deg) == expected


def test_first_of_april_is_the_first_of_october_in_the_south():
    laid = date(2025, 5, 20)
    assert season.first_april(laid, 54) == date(2026, 4, 1)
    assert season.first_april(laid, -38) == date(2025, 10, 1)


def test_first_august_is_first_february_in_the_south():
    laid = date(2025, 10, 20)
    assert season.first_august(laid, 54) == date(2026, 8, 1)
    assert season.first_august(laid, -38) == date(2026, 2, 1)


def test_the_mirror_of_months_is_its_own_inverse():
    there = [season.northern_month(month, -30) for month in range(1, 13)]
    assert there == [7, 8, 9, 10, 11, 12, 1, 2, 3, 4, 5, 6]
    assert [season.northern_month(month, -30) for month in there] == list(range(1, 13))


def test_winter_lies_in_december_or_in_june():
    assert season.in_winter(date(2026, 1, 5), 54)
    assert season.in_winter(date(2026, 7, 5), -38)
    assert not season.in_winter(date(2026, 7, 5), 54)


def test_the_words_of_a_season_name_the_months_where_the_green_lies():
    assert season.season_words(season.AUTUMN, 54) == "laid September to February"
    assert season.season_words(season.AUTUMN, -38) == "laid March to August"
