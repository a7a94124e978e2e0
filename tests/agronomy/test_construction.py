"""The record of the build against published recommendations.

Limits: USGA, Recommendations for a Method of Putting Green Construction (1993, 2004, 2018), unless said.
"""

from dataclasses import replace
from datetime import date

import pytest

from growin.agronomy.build_facts import (
    BuildFacts,
    DrainFacts,
    IrrigationFacts,
    MaterialFacts,
)
from growin.agronomy.construction import NOT_KNOWN, OUT, WITHIN, judge_build, risks_of

LAID = date(2025, 10, 20)
MIX = MaterialFacts(
    [(3.4, 100), (2, 99), (1, 93), (0.5, 65), (0.25, 22), (0.15, 8), (0.05, 3.5), (0.002, 1)],
    total_porosity_percent=42,
    air_filled_percent=20,
    capillary_percent=22,
    ksat_mm_h=250,
    organic_matter_percent=2.5,
)
GRAVEL = MaterialFacts([(12, 100), (9, 80), (6, 20), (4, 6), (2, 1)])
SOUND = BuildFacts(
    depths_mm={"excavation": [400, 405], "gravel": [100, 105], "rootzone": [300, 295, 305]},
    drains=DrainFacts(150, 200, 25, 5, True, 0.5, 100, 80, True),
    rootzone=MIX,
    gravel=GRAVEL,
    irrigation=IrrigationFacts(date(2025, 10, 1), date(2025, 10, 10), date(2025, 10, 20)),
    established_on=LAID,
)


def _row(item, facts=SOUND, settings=None):
    return next(one for one in judge_build(facts, settings) if one.item == item)


def _mix(**changed):
    return replace(SOUND, rootzone=replace(MIX, **changed))


def _built(**changed):
    return replace(SOUND, depths_mm={**SOUND.depths_mm, **changed})


def test_a_sound_build_is_within_in_every_row_and_carries_no_risk():
    rows = judge_build(SOUND)
    assert {one.state for one in rows} == {WITHIN}
    assert risks_of(rows) == ()


def test_an_empty_record_refuses_nothing_and_knows_nothing():
    rows = judge_build(BuildFacts())
    assert {one.state for one in rows} == {NOT_KNOWN}
    assert {one.found for one in rows} == {"not recorded"}


def test_a_shallow_rootzone_says_what_it_means_and_where_it_lies():
    row = _row("rootzone_depth", _built(rootzone=[300, 290, 270]))
    assert (row.wanted, row.found, row.state) == (
        "275–325 mm",
        "270–300 mm at 3 places, 1 of them out",
        OUT,
    )
    assert row.meaning == "It dries sooner: water little and often, and watch for wilt first here."
    assert row.risk == "shallow_rootzone"
    assert (row.depth_from_mm, row.depth_to_mm) == (0.0, pytest.approx(860 / 3))


@pytest.mark.parametrize(
    ("changed", "item", "state", "risk"),
    [
        ({"rootzone": [275, 325]}, "rootzone_depth", WITHIN, ""),
        ({"rootzone": [326]}, "rootzone_depth", OUT, "deep_rootzone"),
        ({"gravel": [99]}, "gravel_depth", OUT, "thin_gravel"),
        ({"excavation": [380]}, "excavation", OUT, "shallow_rootzone"),
        ({"excavation": [480]}, "excavation", OUT, "settling"),
        ({"excavation": [480], "blinding": [60]}, "excavation", WITHIN, ""),
        ({"blinding": [45, 60]}, "blinding_depth", OUT, "gravel_contamination"),
        ({"blinding": [110]}, "blinding_depth", OUT, "layered_rootzone"),
    ],
)
def test_each_layer_is_judged_by_every_level_reading(changed, item, state, risk):
    row = _row(item, _built(**changed))
    assert (row.state, row.risk) == (state, risk)


@pytest.mark.parametrize(
    ("changed", "item", "risk"),
    [
        ({"fall_percent": 0.4}, "fall", "missing_fall"),
        ({"lateral_spacing_m": 6}, "laterals", "slow_drains"),
        ({"trench_width_mm": 120}, "trench_width", "slow_drains"),
        ({"bedding_mm": 0}, "bedding", "slow_drains"),
        ({"reaches_edge": False}, "reaches_edge", "slow_drains"),
    ],
)
def test_drains_out_of_the_recommendation_carry_their_risk(changed, item, risk):
    facts = replace(SOUND, drains=replace(SOUND.drains, **changed))
    assert (_row(item, facts).state, risks_of(judge_build(facts))) == (OUT, (risk,))


def test_drains_lie_below_the_excavation():
    row = _row("fall")
    assert (row.depth_from_mm, row.depth_to_mm) == (402.5, 602.5)


@pytest.mark.parametrize(
    ("ksat_mm_h", "state", "found"),
    [
        (150, WITHIN, "150 mm/h"),
        (120, WITHIN, "120 mm/h, inside the laboratory's spread"),
        (119, OUT, "119 mm/h"),
    ],
)
def test_ksat_is_judged_inside_the_laboratories_spread_of_20_per_cent(ksat_mm_h, state, found):
    """Trade press on USGA quality control: ± 20 % on Ksat."""
    row = _row("ksat", _mix(ksat_mm_h=ksat_mm_h))
    assert (row.state, row.found) == (state, found)


@pytest.mark.parametrize(
    ("changed", "item", "risk"),
    [
        ({"air_filled_percent": 10}, "air_filled", "slow_rootzone"),
        ({"capillary_percent": 10}, "capillary", "droughty_rootzone"),
        ({"organic_matter_percent": 6}, "organic_matter", "soft_rootzone"),
        ({"organic_matter_percent": 0.5}, "organic_matter", "droughty_rootzone"),
    ],
)
def test_pores_and_organic_matter_outside_carry_their_risk(changed, item, risk):
    row = _row(item, _mix(**changed))
    assert (row.state, row.risk) == (OUT, risk)


def test_the_grading_is_read_off_the_curve_in_the_classes_of_the_recommendation():
    found = {one.item: one.found for one in judge_build(SOUND)}
    classes = (
        "fine_gravel",
        "very_coarse",
        "coarse_and_medium",
        "fine",
        "very_fine",
        "silt",
        "clay",
        "fines",
    )
    assert [found[one] for one in classes] == ["1 %", "7 %", "71 %", "14 %", "4.5 %", "2.5 %", "1 %", "8 %"]


def test_a_fine_mix_is_out_in_its_fines():
    grading = [(2, 100), (1, 95), (0.5, 70), (0.25, 40), (0.15, 18), (0.05, 9), (0.002, 4)]
    out = {one.item for one in judge_build(_mix(grading=grading)) if one.state == OUT}
    assert {"very_fine", "clay", "fines"} <= out


def test_gravel_without_blinding_is_judged_by_its_factors():
    """Bridging at most 8, permeability at least 5, uniformity at most 3."""
    coarse = replace(SOUND, gravel=MaterialFacts([(25, 100), (20, 60), (16, 10), (12, 0)]))
    assert _row("bridging", coarse).risk == "gravel_contamination"
    assert [_row(item).state for item in ("bridging", "permeability", "uniformity")] == [WITHIN] * 3


def test_gravel_with_blinding_is_judged_by_its_sizes():
    """USGA 1993: at most 10 % over 12 mm, at least 65 % within 6–9 mm, at most 10 % under 2 mm."""
    blinded = replace(_built(blinding=[60]), blinding=MaterialFacts([(4, 98), (1, 4)]))
    items = ("gravel_over_12", "gravel_6_to_9", "gravel_under_2", "blinding_1_to_4")
    assert [_row(one, blinded).found for one in items] == [
        "0 %",
        "60 %, inside the laboratory's spread",
        "1 %",
        "94 %",
    ]
    assert {_row(one, blinded).state for one in items} == {WITHIN}


def test_water_must_be_live_before_the_first_turf():
    late = replace(SOUND, irrigation=replace(SOUND.irrigation, hose_ready_on=date(2025, 10, 21)))
    row = _row("hose_ready", late)
    assert (row.wanted, row.found, row.state, row.risk) == (
        "by Mon 20 October",
        "on Tue 21 October",
        OUT,
        "no_irrigation",
    )


def test_turf_on_soil_finer_than_the_rootzone_means_coring():
    finer = replace(SOUND, turf_soil=MaterialFacts([(1, 100), (0.15, 20)]))
    same = replace(SOUND, turf_soil=MaterialFacts([(1, 100), (0.15, 9)]))
    assert (_row("turf_soil", finer).state, _row("turf_soil", finer).risk) == (OUT, "turf_soil_finer")
    assert _row("turf_soil", same).state == WITHIN


def test_a_club_may_set_its_own_limit():
    assert _row("rootzone_depth", _built(rootzone=[260]), {"build.rootzone_least_mm": 250}).state == WITHIN


def test_sizes_between_sieves_run_straight_on_the_logarithm_and_end_with_the_sieves():
    curve = MaterialFacts([(4, 100), (1, 0)])
    assert curve.passing_percent(2) == pytest.approx(50)
    assert (curve.passing_percent(8), curve.passing_percent(0.5)) == (100, None)
    assert curve.diameter_mm(50) == pytest.approx(2)
