"""The year of a green in play: what is planned, how much, when, and what one fact changes of it."""

from datetime import date, timedelta
from functools import cache

import pytest

from growin.agronomy.climate import Climate
from growin.agronomy.programme import GreenFacts, draw_programme
from growin.agronomy.programme.done import Done
from growin.agronomy.programme.in_play import is_of_a_year
from tests.agronomy.climates import ENGLAND, ENGLAND_MIRRORED, HARD_WINTER
from tests.agronomy.programme.drawn import SETTINGS, by_key

OPENED = date(2026, 4, 25)
TODAY = date(2026, 10, 1)
GREEN = GreenFacts(450, "turf_relaid", "fescue/bent", date(2025, 10, 20), 54.0)
#: Nitrogen a year once in play, kg/ha. Bent elsewhere: USGA 2023; Poa: Rutgers University; the others are
#: common practice in Britain.
BANDS = {
    "fine fescue": (30, 60),
    "fescue/bent": (50, 90),
    "annual meadow grass/bent": (80, 140),
    "creeping bent": (50, 100),
    "annual meadow grass": (100, 200),
}


def a_green(**more):
    said = {"establishment": "turf_relaid", "species": "fescue/bent", "established_on": date(2025, 10, 20)}
    return GreenFacts(450, **said | {"latitude_deg": 54.0} | more)


def year(green=GREEN, normals_c=ENGLAND, today=TODAY, opened=OPENED, settings=SETTINGS, **done):
    """The steps of the years in play of a green that was opened."""
    cuts = ((opened - timedelta(days=15), 5.5), (opened + timedelta(days=50), 4.5))
    known = Done(as_of=today, opened_on=opened, cuts=cuts, **done)
    steps = draw_programme(green, Climate(normals_c), settings, done=known)
    return [step for step in steps if is_of_a_year(step.key) and step.likely > opened + timedelta(days=42)]


@cache
def plain():
    return tuple(year())


def keys(steps, start):
    return [step.key for step in steps if step.key.startswith(start)]


def total(steps, start):
    return sum(step.amount or 0 for step in steps if step.key.startswith(start))


def shapes(steps, *leaving_out):
    return {step.key: (step.likely, step.amount) for step in steps if not step.key.startswith(leaving_out)}


def test_there_is_always_a_whole_year_to_come():
    """Twelve to fifteen months (our judgement)."""
    last = max(step.likely for step in plain())
    assert timedelta(days=365) < last - TODAY < timedelta(days=460)
    assert min(step.latest for step in plain()) >= TODAY


def test_a_green_that_is_not_open_has_no_such_year():
    steps = draw_programme(GREEN, Climate(ENGLAND), SETTINGS, done=Done(as_of=TODAY))
    assert [step.key for step in steps if is_of_a_year(step.key) and step.kind != "walk"] == []


@pytest.mark.parametrize(("species", "band"), BANDS.items())
def test_the_nitrogen_of_a_whole_year_lies_within_the_band_of_its_grass(species, band):
    fed = total(year(a_green(species=species)), "feed-2027")
    assert band[0] <= fed <= band[1]
    assert fed == pytest.approx(sum(band) / 2, abs=0.5)


def test_no_dose_is_too_small_to_spread_or_more_than_a_week_of_summer():
    """Gathered from 3 kg/ha on; at most 8 kg N/ha a week in summer (common practice)."""
    doses = [step.amount for step in plain() if step.kind == "feed" and step.amount]
    assert (min(doses) >= 3, max(doses) <= 8) == (True, True)


def test_feeding_follows_growth():
    """Growth potential at the means of May and July, 11.5 and 16.5 °C, by the formula of Gelernter and
    Stowell (2005) with 18 °C and 5.5: 0.50 and 0.96; a day's spread of 3 °C draws the two nearer."""
    may, july = total(plain(), "feed-2027-05"), total(plain(), "feed-2027-07")
    assert 0.5 < may / july < 0.7


def test_winter_plans_no_nitrogen_but_a_look_at_the_colour_where_the_soil_is_warm_enough():
    """0–8 kg N/ha a month as colour needs, nothing under 6 °C soil (common practice). England's November
    has 6.8 °C, its December to February 4.0 to 4.4."""
    winter = [step for step in plain() if step.kind == "feed" and step.likely.month in (11, 12, 1, 2)]
    assert [(step.key, step.amount) for step in winter] == [
        ("feed-2026-11-1", None),
        ("feed-2027-11-1", None),
    ]
    assert "0–8 kg N/ha in the month" in winter[0].how


def test_nothing_is_fed_in_the_closed_time_and_the_feeds_after_it_say_so():
    closed = year(a_green(closed_from="05-01", closed_until="06-10"))
    fed = [step for step in closed if step.kind == "feed"]
    assert [step.key for step in fed if "05-01" <= f"{step.likely:%m-%d}" <= "06-10"] == []
    assert total(closed, "feed-2027") == total(plain(), "feed-2027")
    june = [step for step in fed if step.key.startswith("feed-2027-06")]
    assert ["closed time, 1 May to 10 June" in step.why for step in june] == [True] * len(june)
    assert shapes(closed, "feed") == shapes(plain(), "feed")


def test_the_clubs_own_limit_of_a_year_is_kept():
    limited = year(a_green(year_limit_n_kg_ha=40))
    assert total(limited, "feed-2027") == 40
    assert shapes(limited, "feed") == shapes(plain(), "feed")


def test_what_was_given_leaves_less_to_give():
    """Ninety-six already, of a first season's hundred for turf relaid: the rest is left out."""
    fed = year(feeds=((date(2026, 6, 1), 96.0),))
    assert keys(fed, "feed-2026-10") == []
    assert shapes(fed, "feed") == shapes(plain(), "feed")


def test_sand_of_a_season_lies_within_the_british_band_and_none_goes_on_in_winter():
    """6–12 kg/m² a season; no dressing December to February (common practice)."""
    assert 6 <= total(plain(), "dressing-2027") <= 12
    sanded = {step.likely.month for step in plain() if step.kind == "dressing"}
    assert sanded == {4, 5, 6, 7, 8, 9, 10}


def test_the_height_is_up_by_november_and_down_by_steps_in_spring():
    """1–3 mm up by November, drops of 0.25–0.5 mm in spring (common practice)."""
    cuts = [step for step in plain() if step.kind == "cut" and step.likely < date(2027, 9, 1)]
    assert [(step.key, step.amount) for step in cuts] == [
        ("cut-autumn-2026-5.25", 5.25),
        ("cut-autumn-2026-6.0", 6.0),
        ("cut-spring-2027-5.5", 5.5),
        ("cut-spring-2027-5.0", 5.0),
        ("cut-spring-2027-4.5", 4.5),
    ]
    assert (cuts[1].likely < date(2026, 11, 1), cuts[2].likely > date(2027, 3, 1)) == (True, True)


def test_a_winter_height_takes_no_rung_of_the_grow_in_back():
    cuts = ((date(2026, 4, 10), 5.5), (date(2026, 6, 20), 4.5), (date(2026, 11, 2), 6.0))
    done = Done(as_of=date(2026, 12, 1), opened_on=OPENED, cuts=cuts)
    steps = by_key(draw_programme(GREEN, Climate(ENGLAND), SETTINGS, done=done))
    assert steps["cut-ladder-5.5"].likely == date(2026, 4, 10)


def test_the_readings_of_a_year():
    """Annual meadow-grass each May and October, the face by core each spring, organic matter once."""
    due = [step.key for step in plain() if step.kind == "reading" and "2027" in step.key]
    months = [f"2027-{month:02d}" for month in range(4, 11)]
    assert sorted(due) == sorted(
        [f"reading-{measure}-{month}" for measure in ("hardness", "moisture") for month in months]
        + ["reading-poa_share-2027-05", "reading-poa_share-2027-10"]
        + ["reading-face_crossed-2027-04", "reading-organic_matter-2027-06"]
    )


def test_a_seeded_green_has_no_face_to_look_at():
    seeded = a_green(establishment="seed", established_on=date(2024, 9, 1))
    steps = year(seeded)
    assert keys(steps, "reading-face") == []
    assert keys(steps, "reading-poa") == keys(plain(), "reading-poa")


def test_microdochium_is_walked_for_every_week_of_the_cool_wet_months():
    walks = [step.likely for step in plain() if step.kind == "walk"]
    in_winter = [day for day in walks if day < date(2027, 4, 1)]
    assert {later - day for day, later in zip(in_winter, in_winter[1:], strict=False)} == {timedelta(days=7)}
    assert {day.month for day in walks} == {10, 11, 12, 1, 2, 3}


def test_take_all_is_watched_for_where_there_is_bent_and_in_the_first_seasons_only():
    summer = [f"watch-take_all-2027-{month:02d}" for month in (6, 7, 8, 9)]
    assert keys(plain(), "watch-take_all") == summer
    fescue = year(a_green(species="fine fescue", summer_height_mm=4.5))
    assert keys(fescue, "watch-take_all") == []
    assert shapes(fescue, "watch-take_all", "feed") == shapes(plain(), "watch-take_all", "feed")
    assert keys(year(today=date(2029, 5, 1)), "watch-take_all") == []


def test_coring_waits_for_roots_and_sixteen_growing_weeks_and_for_the_organic_matter():
    cored = [step for step in plain() if step.kind == "aerate"]
    assert [(step.key, step.amount) for step in cored] == [("aerate-2027-08", None)]
    assert (cored[0].gate.startswith("white roots at 100 mm"), "15–20 %" in cored[0].how) == (True, True)


def test_a_layer_that_is_cored_out_anyway_is_not_cored_twice():
    assert keys(year(a_green(risks=("turf_soil_finer",))), "aerate") == []


def test_the_first_winter_alone_has_its_rest_days_and_days_written_down():
    rests = [f"inspection-rest_days-{month}" for month in ("2026-11", "2026-12", "2027-01", "2027-02")]
    assert keys(plain(), "inspection-rest_days") == rests
    assert keys(plain(), "inspection-day_state") == ["inspection-day_state-2026-11"]
    assert keys(year(today=date(2027, 10, 1)), "inspection-rest_days") == []


def test_water_and_drains_are_looked_at_by_the_first_of_march():
    steps = by_key(plain())
    assert [steps[f"{one}_check-2027-03"].latest for one in ("irrigation", "drain")] == [date(2027, 3, 1)] * 2


@pytest.mark.parametrize("days", [31, 61, 120])
def test_a_later_drawing_keeps_keys_days_and_amounts(days):
    later = TODAY + timedelta(days=days)
    now, then = by_key(plain()), by_key(year(today=later))
    still = {key for key, step in now.items() if step.latest >= later}
    assert still <= then.keys()
    assert {
        key for key in still if (now[key].likely, now[key].amount) != (then[key].likely, then[key].amount)
    } == set()


def test_the_south_has_the_same_year_six_months_later():
    south = a_green(established_on=date(2026, 4, 20), latitude_deg=-54.0)
    steps = year(south, ENGLAND_MIRRORED, date(2027, 4, 1), date(2026, 10, 25))
    assert keys(steps, "watch-take_all") == [
        f"watch-take_all-{month}" for month in ("2027-12", "2028-01", "2028-02", "2028-03")
    ]
    assert keys(steps, "reading-poa_share") == [
        "reading-poa_share-2027-04",
        "reading-poa_share-2027-11",
        "reading-poa_share-2028-04",
    ]
    assert keys(steps, "reading-face") == ["reading-face_crossed-2027-10"]
    assert keys(steps, "irrigation_check") == ["irrigation_check-2027-09"]
    fed = [
        step for step in steps if step.kind == "feed" and date(2027, 7, 1) <= step.likely < date(2028, 7, 1)
    ]
    assert 50 <= sum(step.amount or 0 for step in fed) <= 90
    assert len(steps) == pytest.approx(len(plain()), abs=4)


def test_seeded_bent_of_a_southern_club_is_fed_by_its_own_band():
    bent = a_green(
        establishment="seed", species="creeping bent", established_on=date(2025, 9, 20), latitude_deg=-41.0
    )
    steps = year(bent, ENGLAND_MIRRORED, date(2026, 4, 1), date(2026, 2, 10))
    fed = [
        step for step in steps if step.kind == "feed" and date(2026, 7, 1) <= step.likely < date(2027, 7, 1)
    ]
    assert 50 <= sum(step.amount or 0 for step in fed) <= 100


def test_a_hard_winter_has_its_year_too():
    steps = year(normals_c=HARD_WINTER)
    assert 50 <= total(steps, "feed-2027") <= 90
    assert {step.likely.month for step in steps if step.kind == "feed"} <= set(range(4, 12))


def test_a_setting_moves_what_it_governs():
    wetter = year(settings=SETTINGS | {"in_play.microdochium_from": 9})
    assert shapes(wetter, "walk") == shapes(plain(), "walk")
    assert len(keys(wetter, "walk")) > len(keys(plain(), "walk"))
