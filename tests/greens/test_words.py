"""Words of the page."""

from datetime import date

import pytest

from greens.templatetags import words


@pytest.mark.parametrize(("degrees", "said"), [(54, "54° north"), (-44.5, "44.5° south"), (0, "0° north")])
def test_a_latitude_says_its_side_of_the_equator(degrees, said):
    assert words.latitude(degrees) == said


def test_a_day_says_its_year_when_it_is_another(today):
    assert words.day(date(2026, 4, 14)) == "Tue 14 April"
    assert words.day(date(2025, 10, 20)) == "Mon 20 October 2025"
    assert words.day(date(2025, 10, 20), date(2025, 1, 1)) == "Mon 20 October"
