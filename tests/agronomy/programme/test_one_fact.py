"""Two greens that differ in one fact differ in the steps which that fact governs, and only there."""

from datetime import date

from growin.agronomy.programme import GreenFacts
from tests.agronomy.climates import ENGLAND_MIRRORED
from tests.agronomy.programme.drawn import by_key, drawn, facts, shapes

PLAIN = drawn(facts())


def test_missing_fall_brings_more_looks_at_the_drains():
    wet = drawn(facts(risks=("missing_fall",)))
    assert shapes(wet, "drain_check") == shapes(PLAIN, "drain_check")
    looks = [len([step for step in steps if step.kind == "drain_check"]) for steps in (PLAIN, wet)]
    assert looks[1] > 2 * looks[0]


def test_a_shallow_rootzone_is_watered_by_hand_more_often():
    dry = drawn(facts(risks=("shallow_rootzone",)))
    assert shapes(dry, "hand_water") == shapes(PLAIN, "hand_water")
    rounds = [len([step for step in steps if step.kind == "hand_water"]) for steps in (PLAIN, dry)]
    assert rounds[1] > rounds[0]


def test_turf_on_finer_soil_is_cored_from_the_first_august_for_three_years():
    finer = drawn(facts(risks=("turf_soil_finer",)))
    assert shapes(finer, "aerate") == shapes(PLAIN, "aerate")
    # From the first August, for 2–3 years; 15–20 % of the surface a year (common practice; USGA).
    assert [(step.key, step.likely, step.amount) for step in finer if step.kind == "aerate"] == [
        ("aerate-coring-01", date(2026, 8, 1), 15),
        ("aerate-coring-02", date(2027, 8, 1), 15),
        ("aerate-coring-03", date(2028, 8, 1), 15),
    ]


def test_turf_that_has_not_grown_sixteen_weeks_by_august_waits_a_year():
    late = drawn(facts(established_on=date(2026, 5, 20), risks=("turf_soil_finer",)))
    assert by_key(late)["aerate-coring-01"].likely == date(2027, 8, 1)


def test_water_nearby_brings_its_caution_and_nothing_else():
    near = drawn(facts(distance_to_water_m=2.0))
    assert shapes(near) == shapes(PLAIN)
    assert by_key(near)["feed-01"].cautions == ("fertiliser", "fertiliser_near_water")
    assert by_key(PLAIN)["feed-01"].cautions == ("fertiliser",)


def test_species_governs_heights_and_what_hangs_on_them():
    poa = drawn(facts(species="annual meadow grass"))
    assert by_key(poa)["inspection-opening"].height_mm == 5.0
    assert by_key(PLAIN)["inspection-opening"].height_mm == 5.5
    chains = ("cut", "inspection", "reading", "recheck", "mower")
    assert shapes(poa, *chains) == shapes(PLAIN, *chains)


def test_the_height_of_the_other_greens_governs_the_ladder():
    higher = by_key(drawn(facts(others_height_mm=6.0)))
    assert higher["inspection-opening"].height_mm == 6.75
    assert "cut-ladder-6.75" in higher


def test_the_kind_of_turf_governs_its_nitrogen_band():
    relaid, washed = PLAIN, drawn(facts("turf_washed"))
    assert shapes(relaid, "feed") == shapes(washed, "feed")


def test_hemispheres_mirror_each_other_by_half_a_year():
    south = drawn(facts(established_on=date(2026, 4, 20), latitude_deg=-54.0), ENGLAND_MIRRORED)
    north_days = {step.key: (step.likely - date(2025, 10, 20)).days for step in PLAIN if step.kind != "walk"}
    south_days = {step.key: (step.likely - date(2026, 4, 20)).days for step in south if step.kind != "walk"}
    shared = north_days.keys() & south_days.keys()
    assert len(shared) > 0.9 * len(north_days)
    # Half a year is not the same number of days on both sides: 182 or 183, and February is short.
    assert max(abs(north_days[key] - south_days[key]) for key in shared) <= 6


def test_area_changes_no_day():
    small = drawn(GreenFacts(120, "turf_relaid", "fescue/bent", date(2025, 10, 20), 54.0))
    assert shapes(small) == shapes(PLAIN)
    assert "0.07 kg N on the green" in by_key(small)["feed-01"].how
