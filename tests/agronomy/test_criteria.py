"""Findings and verdicts on the default criteria (our judgement, editable by each club)."""

from datetime import date, timedelta

import pytest

from growin.agronomy.criteria import BAR, CRITERIA, DEFAULTS, LOOSER, criteria_for, is_looser
from growin.agronomy.criteria_defaults import HIGHER, LOWER
from growin.agronomy.facts import Evidence, HeightFacts, ReadingFacts, newest
from growin.agronomy.measures import MEASURES, clean_values
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET
from growin.agronomy.verdict import GATE, NOT_READY, READY, judge_all, worst
from tests.agronomy.a_green import (
    AS_OF,
    GOOD,
    READ_ON,
    SETTINGS,
    a_green,
    found,
    states,
    warm,
)


@pytest.mark.parametrize("establishment", ["turf_relaid", "turf_washed", "seed"])
def test_a_green_with_every_bar_met_is_ready(establishment):
    verdict = judge_all(a_green(establishment=establishment), AS_OF, SETTINGS)
    assert (verdict.state, verdict.unmet) == (READY, ())
    assert set(states(verdict).values()) == {MET}


def test_turf_and_seed_are_asked_for_different_things():
    turf, seed = ({one.key for one in criteria_for(from_seed)} for from_seed in (False, True))
    assert turf - seed == {"rooting_turf", "joints", "thatch"}
    assert seed - turf == {"rooting_seed", "cover", "mat"}


def test_the_good_values_are_values_that_a_form_would_keep():
    assert {key: clean_values(key, found) for key, found in GOOD.items()} == GOOD


@pytest.mark.parametrize(
    ("changed", "criterion", "sentence"),
    [
        (
            {"rooting_depth": [60, 60, 60, 40, 30]},
            "rooting_turf",
            "White roots 50 mm below the turf/rootzone face in 3 of 5 cores; 4 of 5 wanted.",
        ),
        (
            {"hand_pull": [True] * 7 + [False] * 3},
            "rooting_turf",
            "Turf holds pull and lift at 7 of 10 points; 8 of 10 wanted.",
        ),
        (
            {"joint_gap": [4.0] + [0.0] * 19},
            "joints",
            "Joints open over 3 mm at 1 of 20 joint places, 4 mm at most; none over 3 mm wanted.",
        ),
        (
            {"joint_proud": [1.0] + [0.0] * 19},
            "joints",
            "Joints proud at 1 of 20 joint places, 1 mm at most; none wanted.",
        ),
        (
            {"lip": [2.5] + [0.0] * 19},
            "levels",
            "Lip under the 0.5 m edge over 2 mm at 1 of 20 placings, 2.5 mm at most; none over 2 mm wanted.",
        ),
        (
            {"dip": [5.0] + [0.0] * 11},
            "levels",
            "Dip under the 1 m edge over 4 mm at 1 of 12 placings, 5 mm at most; none over 4 mm wanted.",
        ),
        ({"ball_roll": [False]}, "levels", "A rolled ball jumps."),
        ({"hole": [True, True, False]}, "holes", "Edge and liner hold in 2 of 3 test holes; 3 of 3 wanted."),
        (
            {"drop": [True] * 7 + [False] * 2},
            "holes",
            "The ball dents and the dent repairs flat in 7 of 9 ball drops; 8 of 9 wanted.",
        ),
        ({"hole_positions": [3]}, "holes", "Usable hole positions: 3; at least 4 wanted."),
        ({"scalping": [True]}, "height", "Scalped."),
        (
            {"disease_share": [2.0]},
            "disease",
            "Active disease or damage 2 % of the area; none over 1 % of the area wanted.",
        ),
        ({"standing_water_free": [False]}, "water", "Water stands 30 minutes after irrigation."),
        ({"drains_running": [False]}, "water", "Drains not running."),
        ({"routes_rooted": [True, False]}, "surrounds", "A walk-on route not rooted at 1 of 2 routes."),
        ({"temporary_green_kept": [False]}, "surrounds", "No temporary green to close to."),
    ],
)
def test_one_bar_not_met_holds_the_green_back_in_the_trades_words(changed, criterion, sentence):
    verdict = judge_all(a_green(changed), AS_OF, SETTINGS)
    assert verdict.state == NOT_READY
    assert [one.criterion for one in verdict.unmet] == [criterion]
    assert sentence in verdict.unmet[0].sentences


def test_seed_wants_cover_and_75_mm_of_roots():
    thin = {"cover": [{"hits": 24, "points": 25}] * 10, "rooting_depth": [70.0] * 5}
    verdict = judge_all(a_green(thin, establishment="seed"), AS_OF, SETTINGS)
    assert [one.criterion for one in verdict.unmet] == ["rooting_seed", "cover"]


def test_the_worst_decides_not_met_before_not_known_before_met():
    assert worst([MET, NOT_KNOWN, NOT_MET]) == NOT_MET
    assert worst([MET, NOT_KNOWN]) == NOT_KNOWN
    assert worst([MET, MET]) == MET


def test_an_empty_record_is_not_known_and_says_what_would_settle_it():
    verdict = judge_all(Evidence("turf_relaid"), AS_OF, SETTINGS)
    assert verdict.state == NOT_KNOWN
    assert verdict.next_inspection == AS_OF
    rooting = verdict.findings[0]
    assert rooting.sentences == (
        "Turf holds to hand pull and trowel: not read yet.",
        "White roots: not read yet.",
    )
    assert rooting.settles == (
        "Turf holds to hand pull and trowel: 10 points to be read.",
        "White roots: 5 cores to be read.",
    )


def test_a_gate_not_yet_passed_is_a_bar_not_met_with_its_date():
    evidence = a_green(
        gate_on=date(2026, 4, 20),
        gate_words="at least 16 weeks down",
        growth=warm(count=20, until=date(2026, 4, 20)),
    )
    verdict = judge_all(evidence, AS_OF, SETTINGS)
    assert verdict.state == NOT_READY
    gate = verdict.unmet[0]
    assert (gate.criterion, gate.kind, gate.sentences) == (
        GATE,
        BAR,
        ("Not before Mon 20 April (at least 16 weeks down).",),
    )
    assert judge_all(evidence, date(2026, 4, 20), SETTINGS).state == READY


def test_before_the_gate_the_next_inspection_is_the_first_that_is_still_fresh_when_it_opens():
    evidence = a_green(gate_on=date(2026, 5, 20))
    assert judge_all(evidence, AS_OF, SETTINGS).next_inspection == date(2026, 5, 6)


def test_a_gate_of_another_year_is_said_with_its_year():
    gate = judge_all(a_green(gate_on=date(2027, 6, 21)), AS_OF, SETTINGS).unmet[0]
    assert gate.sentences == ("Not before Mon 21 June 2027.",)


def test_the_three_weightiest_are_named_not_met_before_not_known():
    changed = {
        "hole": [False] * 3,
        "lip": [9.0],
        "disease_share": [5.0],
        "drains_running": [False],
        "dip": [1.0],
    }
    verdict = judge_all(a_green(changed, heights=HeightFacts()), AS_OF, SETTINGS)
    assert [one.criterion for one in verdict.unmet] == ["holes", "levels", "water"]


def test_watches_are_shown_and_never_block():
    verdict = judge_all(a_green({"infiltration": [40.0, 41.0, 42.0]}), AS_OF, SETTINGS)
    found = {one.criterion: one.state for one in verdict.findings if one.kind != BAR}
    assert verdict.state == READY
    assert found == {
        "thatch": NOT_KNOWN,
        "infiltration": NOT_MET,
        "hardness": NOT_KNOWN,
        "moisture": NOT_KNOWN,
        "speed": NOT_KNOWN,
    }


def test_hardness_is_judged_for_the_half_kilogram_hammer_only():
    def hardness(hammer_kg):
        reading = ReadingFacts("hardness", READ_ON, [90.0, 91.0, 89.0] * 3, {"hammer_kg": hammer_kg})
        return found("hardness", Evidence("seed", (reading,)))

    assert hardness(0.5).state == MET
    assert hardness(2.25).sentences == ("Hardness read another way. The figures are for the 0.5 kg hammer.",)


def test_a_reading_goes_stale_after_14_days():
    evidence = a_green(on=date(2026, 4, 2))
    assert found("rooting_turf", evidence, date(2026, 4, 16)).state == MET
    stale = found("rooting_turf", evidence, date(2026, 4, 17))
    assert (stale.state, stale.stale, stale.on) == (NOT_KNOWN, True, date(2026, 4, 2))
    assert stale.sentences[1] == "White roots: the reading of Thu 2 April is older than 14 days."


def test_a_reading_goes_stale_after_7_days_in_the_fortnight_before_a_proposed_day():
    evidence = a_green(on=date(2026, 4, 8), proposed_on=date(2026, 4, 30))
    assert found("holes", evidence, date(2026, 4, 15)).state == MET
    assert found("holes", evidence, date(2026, 4, 16)).sentences[0] == (
        "Test hole holds its edge and liner: the reading of Wed 8 April is older than 7 days."
    )


def test_a_newer_reading_replaces_an_older_one_and_later_ones_are_not_known_yet():
    readings = tuple(
        ReadingFacts("rooting_depth", on, [depth] * 5)
        for on, depth in ((date(2026, 3, 1), 20.0), (date(2026, 4, 1), 60.0), (date(2026, 5, 1), 90.0))
    )
    found = newest(Evidence("seed", readings), "rooting_depth", AS_OF, count=5, pool_days=3)
    assert (found.on, found.values) == (date(2026, 4, 1), (60.0,) * 5)


def test_a_set_finished_a_day_later_is_taken_together():
    readings = (
        ReadingFacts("rooting_depth", date(2026, 4, 13), [10.0, 60.0]),
        ReadingFacts("rooting_depth", date(2026, 4, 14), [60.0, 60.0, 60.0]),
        ReadingFacts("rooting_depth", date(2026, 4, 2), [0.0] * 5),
    )
    found = newest(Evidence("seed", readings), "rooting_depth", AS_OF, count=5, pool_days=3)
    assert sorted(found.values) == [10.0, 60.0, 60.0, 60.0, 60.0]


def test_the_next_inspection_falls_when_the_oldest_reading_is_a_fortnight_old():
    verdict = judge_all(a_green(), AS_OF, SETTINGS)
    assert verdict.next_inspection == READ_ON + timedelta(days=14)


def test_a_club_may_ask_for_less_or_more():
    shallow = a_green({"rooting_depth": [40.0] * 5})
    assert found("rooting_turf", shallow).state == NOT_MET
    assert (
        found("rooting_turf", shallow, settings=SETTINGS | {"criterion.rooting_turf.depth_mm": 40}).state
        == MET
    )


@pytest.mark.parametrize(
    ("key", "value", "evidence"),
    [
        ("rooting_turf.depth_mm", 30, {"rooting_depth": [40.0] * 5}),
        ("rooting_turf.cores_at_least", 3, {"rooting_depth": [60, 60, 60, 0, 0]}),
        ("joints.open_mm", 5, {"joint_gap": [5.0] * 20}),
        ("holes.positions_at_least", 2, {"hole_positions": [2]}),
        ("disease.share_percent", 3, {"disease_share": [3.0]}),
        ("levels.dip_placings_of", 6, {"dip": [1.0] * 6}),
    ],
)
def test_a_looser_threshold_is_known_to_be_looser_and_lets_more_pass(key, value, evidence):
    full = f"criterion.{key}"
    assert is_looser(full, SETTINGS[full], value)
    assert judge_all(a_green(evidence), AS_OF, SETTINGS).state != READY
    assert judge_all(a_green(evidence), AS_OF, SETTINGS | {full: value}).state == READY


def test_every_threshold_says_which_way_is_looser():
    assert set(LOOSER) == set(DEFAULTS)
    assert set(LOOSER.values()) == {LOWER, HIGHER}


def test_every_criterion_reads_measures_that_exist_and_says_why():
    assert {part.measure for one in CRITERIA.values() for part in one.parts} <= set(MEASURES)
    assert all(one.why.endswith(".") for one in CRITERIA.values())
