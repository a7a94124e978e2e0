"""What holds for every programme, whatever the green and the place."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from growin.agronomy import cautions, feeding
from growin.agronomy.climate import Climate
from growin.agronomy.criteria import BAR, criteria_for
from growin.agronomy.defaults import COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED
from growin.agronomy.measures import MEASURES
from growin.agronomy.programme import GreenFacts, default_settings, draw_programme
from growin.agronomy.programme.facts import RISKS
from growin.agronomy.programme.step import STEP_ONLY_KINDS
from growin.agronomy.species import ESTABLISHMENTS, SPECIES
from growin.agronomy.works import WORKS
from tests.agronomy.climates import ENGLAND
from tests.agronomy.programme.drawn import SETTINGS, drawn, facts

MARKS = {PUBLISHED, COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT}


@st.composite
def places(draw):
    """A year that swings about its mean, warmest in July in the north and in January in the south."""
    mean, swing = draw(st.floats(2, 18)), draw(st.floats(0, 16))
    north = tuple(mean - swing * one for one in (1, 0.9, 0.5, 0, -0.5, -0.9, -1, -0.9, -0.5, 0, 0.5, 0.9))
    latitude = draw(st.floats(25, 65)) * draw(st.sampled_from((1, -1)))
    return Climate(north if latitude > 0 else north[6:] + north[:6]), latitude


@st.composite
def greens(draw):
    climate, latitude = draw(places())
    green = GreenFacts(
        area_m2=draw(st.floats(50, 1200)),
        establishment=draw(st.sampled_from(sorted(ESTABLISHMENTS))),
        species=draw(st.sampled_from(sorted(SPECIES))),
        established_on=draw(st.dates(date(2020, 1, 1), date(2029, 12, 31))),
        latitude_deg=latitude,
        others_height_mm=draw(st.none() | st.floats(3, 8)),
        risks=tuple(draw(st.sets(st.sampled_from(sorted(RISKS)), max_size=3))),
    )
    return green, climate


@settings(max_examples=30, deadline=None)
@given(greens())
def test_every_programme_is_in_order(case):
    green, climate = case
    steps = draw_programme(green, climate, SETTINGS)
    assert len({step.key for step in steps}) == len(steps)
    assert all(green.established_on <= step.earliest <= step.likely <= step.latest for step in steps)
    assert [step.likely for step in steps] == sorted(step.likely for step in steps)
    assert all(step.what and step.why and step.mark in MARKS for step in steps)


@settings(max_examples=30, deadline=None)
@given(greens())
def test_heights_never_rise(case):
    cuts = [step.height_mm for step in draw_programme(*case, SETTINGS) if step.kind == "cut"]
    assert cuts == sorted(cuts, reverse=True)


@settings(max_examples=30, deadline=None)
@given(greens())
def test_nitrogen_stays_in_its_band_and_off_cold_soil(case):
    green, climate = case
    feeds = [step for step in draw_programme(green, climate, SETTINGS) if step.n_kg_ha]
    most = feeding.season_band(green.establishment, green.species, SETTINGS)[1]
    first_year = [step.n_kg_ha for step in feeds if step.likely < feeds[0].likely + timedelta(days=365)]
    assert sum(first_year) <= most
    assert all(climate.soil_c(step.likely) >= 6 for step in feeds)
    assert all(feeding.judge_dose(step.n_kg_ha, "granular", SETTINGS) == () for step in feeds)


@settings(max_examples=25, deadline=None)
@given(greens())
def test_no_opening_before_the_gate(case):
    days = {step.key: step for step in draw_programme(*case, SETTINGS)}
    opening = days.get("inspection-opening")
    assert opening is None or opening.earliest >= days["gate-opening"].likely


def test_kinds_measures_and_cautions_are_those_of_the_tables():
    everything = [
        step
        for establishment in ESTABLISHMENTS
        for step in drawn(facts(establishment, risks=("turf_soil_finer",), distance_to_water_m=1.0))
    ]
    assert {step.kind for step in everything} - WORKS.keys() - STEP_ONLY_KINDS.keys() == set()
    assert {step.measure for step in everything} - {""} - MEASURES.keys() == set()
    assert {key for step in everything for key in step.cautions} - cautions.CAUTIONS.keys() == set()


@pytest.mark.parametrize("establishment", sorted(ESTABLISHMENTS))
def test_every_bar_of_the_verdict_has_its_reading_before_opening(establishment):
    from_seed = establishment == "seed"
    bars = {
        part.measure
        for criterion in criteria_for(from_seed)
        if criterion.kind == BAR
        for part in criterion.parts_for(from_seed)
    }
    steps = drawn(facts(establishment))
    opening = next(step.likely for step in steps if step.key == "inspection-opening")
    fresh = {step.measure for step in steps if step.measure and 0 <= (opening - step.likely).days <= 7}
    assert bars <= fresh


def test_every_setting_of_the_tables_is_a_number_in_its_range():
    assert all(isinstance(value, int | float) for value in default_settings().values())


def test_rounds_of_one_chain_do_not_overlap_their_neighbours():
    feeds = [step for step in drawn(facts()) if step.n_kg_ha]
    pairs = list(zip(feeds, feeds[1:], strict=False))
    assert all(before.likely < after.earliest for before, after in pairs)
    assert all(before.latest < after.likely for before, after in pairs)


def test_until_leaves_the_later_steps_out():
    day = date(2026, 3, 20)
    whole = drawn(facts())
    assert drawn(facts(), until=day) == tuple(step for step in whole if step.likely <= day)


def test_a_measured_spring_moves_the_first_feed():
    warm = {date(2026, 2, 10) + timedelta(days=n): 9.0 for n in range(25)}
    first = {step.key: step for step in drawn(facts(), daily=warm)}["feed-01"]
    assert first.likely < {step.key: step for step in drawn(facts())}["feed-01"].likely
    assert first.earliest == first.likely == first.latest


def test_a_place_without_a_summer_has_a_gate_and_no_opening():
    steps = {step.key for step in drawn(facts(), (-15.0,) * 12)}
    assert "gate-opening" in steps
    assert "inspection-opening" not in steps


def test_the_same_facts_draw_the_same_programme():
    assert draw_programme(facts(), Climate(ENGLAND), SETTINGS) == drawn(facts())
