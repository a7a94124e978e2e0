"""One amount over several greens: what each has, by area."""

import pytest

from growin.agronomy.amounts import shares, shares_in_words
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.works import stopped_by_weather


def test_each_green_has_its_share_by_area():
    """49.5 kg on 540 and 450 m² are 50 g on each m²: 27 and 22.5 kg, by hand."""
    assert shares(49_500, [54_000, 45_000]) == [27_000, 22_500]


def test_shares_are_whole_and_add_up():
    """100 g on three equal greens: 33.3 g each, and the one gram over goes to the first."""
    assert shares(100, [1, 1, 1]) == [34, 33, 33]
    assert sum(shares(1_000_003, [45_123, 51_777, 38_001, 60_000])) == 1_000_003


def test_the_last_gram_goes_where_most_was_cut_off():
    """10 g on 2, 3 and 6 dm²: 1.82, 2.73 and 5.45 g, so 2, 3 and 5 (largest remainder, Hamilton's method)."""
    assert shares(10, [2, 3, 6]) == [2, 3, 5]


def test_shares_are_said_with_their_sum():
    said = shares_in_words(49_500, "g", [("Fourth", 54_000), ("Seventh", 45_000)])
    assert said == "Fourth 27 kg, Seventh 22.5 kg; 49.5 kg in all"


def test_a_green_without_an_area_is_said():
    said = shares_in_words(49_500, "g", [("Fourth", 54_000), ("Ninth", 0)])
    assert said == "49.5 kg in all; the area of Ninth is not known, so no share is worked out"
    with pytest.raises(ImpossibleValue):
        shares(49_500, [54_000, 0])


@pytest.mark.parametrize("key", ["cut", "feed", "roll", "dressing", "spray", "hand_water"])
def test_weather_stops_work_on_the_sward(key):
    assert stopped_by_weather(key)


@pytest.mark.parametrize("key", ["walk", "note", "fence", "mower_set", "defect", "watch"])
def test_weather_stops_no_walk_and_nothing_in_the_shed(key):
    assert not stopped_by_weather(key)
