"""No feed is planned in the club's closed time: it moves to the first day allowed, and says why."""

from dataclasses import replace
from datetime import date

import pytest

from growin.agronomy.climate import Climate
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.programme import draw_programme
from tests.agronomy.climates import ENGLAND
from tests.agronomy.programme.drawn import SETTINGS, by_key, drawn, facts, shapes

PLAIN = drawn(facts())
SAID = "moved out of the club's closed time, 1 April to 30 April"


def feeds(steps):
    return [step for step in steps if step.kind == "feed"]


def in_april(step):
    return step.likely.month == 4


def test_feeds_of_a_closed_april_wait_for_may_and_say_so():
    closed = drawn(facts(closed_from="04-01", closed_until="04-30"))
    assert (any(map(in_april, feeds(PLAIN))), any(map(in_april, feeds(closed)))) == (True, False)
    moved = [step for step in feeds(closed) if SAID in step.why]
    assert [step.likely for step in moved] == [date(2026, 5, 1)]


def test_the_closed_time_governs_feeds_and_nothing_else():
    closed = drawn(facts(closed_from="04-01", closed_until="04-30"))
    assert shapes(closed, "feed") == shapes(PLAIN, "feed")


def test_a_closed_time_that_growth_would_not_feed_in_moves_no_feed():
    """Turf of October is fed from March on; the rules of nitrate close the winter (common practice)."""
    closed = drawn(facts(closed_from="11-01", closed_until="01-31"))
    assert shapes(closed) == shapes(PLAIN)


def test_a_starter_in_the_closed_time_waits_until_the_green_may_be_fed():
    closed = by_key(drawn(facts(closed_from="10-15", closed_until="01-31")))["feed-starter"]
    assert by_key(PLAIN)["feed-starter"].likely == date(2025, 10, 20)
    assert (closed.likely > date(2026, 1, 31), "raked in" in closed.what) == (True, False)
    assert closed.why.endswith("moved out of the club's closed time, 15 October to 31 January")


def test_a_year_that_is_closed_throughout_plans_no_feed():
    assert feeds(drawn(facts(closed_from="01-01", closed_until="12-31"))) == []


def test_planned_phosphorus_keeps_within_the_clubs_limit():
    settings = SETTINGS | {"feeding.starter.p_kg_ha": 30}
    limited = replace(facts(), year_limit_p_kg_ha=12.0)
    both = [draw_programme(one, Climate(ENGLAND), settings) for one in (facts(), limited)]
    assert [by_key(one)["feed-starter"].amount for one in both] == [30, 12]


def test_a_day_that_is_none_is_refused():
    with pytest.raises(ImpossibleValue, match="a month and a day"):
        facts(closed_from="31 October", closed_until="01-31")
