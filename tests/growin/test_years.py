"""The years of a green: trends, year against year, and what the rebuild was worth."""

from datetime import date, timedelta

import pytest
from scipy import stats

from greens.actions.day_state import record_state
from greens.actions.readings import record_readings
from greens.models import DayState, Green, ReadingSet
from growin.agronomy.trend import BETTER, DAYS_A_YEAR
from growin.queries import years
from tests.entries import at, label, logged
from tests.growin.ripe import read

pytestmark = pytest.mark.django_db
POA = [55, 54, 51, 50, 46, 45]


@pytest.fixture
def laid_long_ago(cast):
    cast.establishment.works_started_on = date(2023, 9, 8)
    cast.establishment.established_on = date(2023, 10, 20)
    cast.establishment.save()
    return cast


def days_ago(cast, days: int) -> date:
    return cast.today - timedelta(days=days)


def poa_falls(cast) -> list[date]:
    days = [days_ago(cast, 100 * n) for n in range(len(POA))][::-1]
    for on, share in zip(days, POA, strict=True):
        read(cast, "poa_share", [share] * 10, on)
    return days


def found(cast) -> years.Years:
    return years.of_green(cast.green, cast.today)


def test_poa_that_falls_year_by_year_is_better(laid_long_ago):
    days = poa_falls(laid_long_ago)
    (one,) = found(laid_long_ago).followed
    expected = stats.linregress([(on - days[0]).days / DAYS_A_YEAR for on in days], POA)
    assert one.trend.per_year == pytest.approx(expected.slope)
    assert one.state == BETTER
    assert one.sentence.startswith("Annual meadow-grass (Poa): better. It falls by ")


def test_methods_and_depths_are_never_mixed_in_one_trend(laid_long_ago):
    for n, (top, low) in enumerate([(5.1, 3.2), (5.0, 3.1), (4.8, 3.1), (4.6, 3.0)]):
        on = days_ago(laid_long_ago, 120 * (4 - n))
        for values, upper, lower in ((top, 0, 20), (low, 20, 40)):
            protocol = {"depth_from_mm": upper, "depth_to_mm": lower, "method": "440 °C"}
            read(laid_long_ago, "organic_matter", [values] * 3, on, protocol=protocol)
    ways = {one.way: one.trend.count for one in found(laid_long_ago).followed}
    assert ways == {"0 to 20 mm, 440 °C": 4, "20 to 40 mm, 440 °C": 4}


def test_years_stand_against_each_other_from_midwinter_on(laid_long_ago):
    one, sand = label(laid_long_ago, lines={"N_total": 10}), label(laid_long_ago, "Sand", kind="sand")
    for days, grams in ((10, 4500), (400, 9000)):
        on = days_ago(laid_long_ago, days)
        logged(laid_long_ago, "feed", on=on, products=[(one, grams)])
        logged(laid_long_ago, "dressing", on=on, products=[(sand, 450_000)])
        logged(laid_long_ago, "cut", on=on)
    known = found(laid_long_ago).years
    assert [(year.name, round(year.n_kg_ha), year.sand_kg_m2, year.cuts) for year in known] == [
        ("2026", 10, 1.0, 1),
        ("2025", 20, 1.0, 1),
    ]


def test_in_the_south_a_year_goes_from_july_to_june(laid_long_ago):
    laid_long_ago.club.latitude_deg = -44
    laid_long_ago.club.save()
    laid_long_ago.green.club = laid_long_ago.club
    logged(laid_long_ago, "cut", on=days_ago(laid_long_ago, 10))
    assert found(laid_long_ago).years[0].name == "2025–26"


def test_days_kept_off_are_counted_of_those_written_down(laid_long_ago):
    for days, state in ((1, "open"), (2, "frosted"), (3, "waterlogged"), (4, "open")):
        record_state(
            green=laid_long_ago.green, by=laid_long_ago.staff, on=days_ago(laid_long_ago, days), state=state
        )
    logged(laid_long_ago, "cut", on=days_ago(laid_long_ago, 5))
    year = found(laid_long_ago).years[0]
    assert (year.days_off, year.days_written) == (2, 4)


def test_what_the_rebuild_was_worth_is_told_against_greens_never_rebuilt(laid_long_ago, as_):
    cast = laid_long_ago
    old = Green.objects.create(club=cast.club, name="Second", position=9, area_dm2=40_000)
    on = days_ago(cast, 150)
    logged(cast, "cut", on=days_ago(cast, 160))
    for green, states in ((cast.green, ["open"] * 4), (old, ["frosted", "waterlogged", "open", "open"])):
        for n, state in enumerate(states):
            DayState.objects.create(green=green, on=on + timedelta(days=n), state=state, by=cast.staff)
    for green, share in ((cast.green, 30), (old, 60)):
        record_readings(
            green=green, by=cast.staff, taken_by=cast.staff, measure="poa_share", on=on, values=[share] * 10
        )
    told = [(one.words, one.own, one.others, one.count) for one in found(cast).worth]
    assert told == [
        ("Days kept off, of those written down", 0, 50, 1),
        ("Annual meadow-grass (Poa)", 30, 60, 1),
    ]
    assert (
        "What the rebuild was worth"
        in as_("committee").get(at(cast, "years", cast.green.pk)).content.decode()
    )


def test_the_page_costs_the_same_after_one_year_and_after_many(laid_long_ago, as_, django_assert_num_queries):
    client, place = as_("committee"), at(laid_long_ago, "years", laid_long_ago.green.pk)
    logged(laid_long_ago, "cut")
    read(laid_long_ago, "poa_share", [40] * 10, laid_long_ago.today)
    with django_assert_num_queries(20):
        client.get(place)
    poa_falls(laid_long_ago)
    with django_assert_num_queries(20):
        client.get(place)


def test_before_anything_was_read_the_page_says_what_is_followed(cast, as_):
    page = as_("staff").get(at(cast, "years", cast.green.pk)).content.decode()
    assert "each May and October" in page


def test_five_years_stand_beside_each_other_and_earlier_ones_behind_a_link(cast, as_):
    for year in range(2017, 2027):
        ReadingSet.objects.create(
            club=cast.club, green=cast.green, measure="hardness", on=date(year, 3, 1), values=[90],
            protocol={}, taken_by=cast.staff, logged_by=cast.staff,
        )  # fmt: skip
    address = at(cast, "years", cast.green.pk)
    page = as_("head").get(address)
    assert [one.name for one in page.context["known"].years] == ["2026", "2025", "2024", "2023", "2022"]
    assert 'href="?year=2021">Earlier years' in page.content.decode()
    before = as_("head").get(address, {"year": 2021})
    assert [one.name for one in before.context["known"].years] == ["2021", "2020", "2019", "2018", "2017"]
    assert "The last years" in before.content.decode()
