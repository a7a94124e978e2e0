"""Decision rules: counts in whole numbers, largest values, bounds, answers, means."""

import pytest

from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.rules import (
    MET,
    NOT_KNOWN,
    NOT_MET,
    BoundRule,
    CountRule,
    Judgement,
    LargestRule,
    RangeRule,
    ShownRule,
    YesRule,
    share_of,
)

CORES = CountRule(4, 5, "White roots 50 mm below the turf/rootzone face in", "cores", at_least=50)
JOINTS = LargestRule(3, 20, "Joints open", "joint places")
COVER = BoundRule(98, 95, 10, 25, 0.95)
MAT = RangeRule(3, 6, 5, "Mat", "cores", "mm")


def test_the_sentence_says_how_many_were_found_and_how_many_are_wanted():
    assert CORES.judge([62, 55, 50, 49.9, 31]) == Judgement(
        NOT_MET, "White roots 50 mm below the turf/rootzone face in 3 of 5 cores; 4 of 5 wanted."
    )


@pytest.mark.parametrize(
    ("depths_mm", "state", "settles"),
    [
        ([50, 50, 50, 50, 0], MET, ""),
        ([60, 60, 60], NOT_KNOWN, "Take 2 more: 2 cores."),
        ([60, 60, 60, 60], MET, ""),
        ([10, 10], NOT_MET, ""),
        ([60, 10], NOT_KNOWN, "Take 3 more: 3 cores."),
        ([], NOT_KNOWN, "Take 5 more: 5 cores."),
    ],
)
def test_missing_cores_leave_it_open_only_while_they_could_change_it(depths_mm, state, settles):
    judged = CORES.judge(depths_mm)
    assert (judged.state, judged.settles) == (state, settles)


@pytest.mark.parametrize(
    ("taken", "needed"), [(5, 4), (6, 5), (7, 6), (8, 7), (9, 8), (10, 8), (15, 12), (20, 16)]
)
def test_more_cores_than_asked_keep_the_share_rounded_up(taken, needed):
    assert share_of(4, 5, taken) == needed
    assert CORES.judge([60] * needed + [0] * (taken - needed)).state == MET
    assert CORES.judge([60] * (needed - 1) + [0] * (taken - needed + 1)).state == NOT_MET


def test_more_cores_than_asked_are_said_to_be_so():
    assert CORES.judge([60] * 5 + [0]).words == (
        "White roots 50 mm below the turf/rootzone face in 5 of 6 cores; 5 of 6 wanted, the share of 4 of 5."
    )


def test_six_of_five_is_no_rule():
    with pytest.raises(ImpossibleValue, match="from 1 to 5, the number taken"):
        CountRule(6, 5, "", "cores")


@pytest.mark.parametrize(
    ("gaps_mm", "judged"),
    [
        (
            [0, 1, 3] + [0] * 17,
            Judgement(MET, "Joints open 3 mm at most at 20 joint places; none over 3 mm wanted."),
        ),
        ([0] * 20, Judgement(MET, "Joints open at none of 20 joint places; none over 3 mm wanted.")),
        (
            [4, 5] + [0] * 18,
            Judgement(
                NOT_MET, "Joints open over 3 mm at 2 of 20 joint places, 5 mm at most; none over 3 mm wanted."
            ),
        ),
        ([4], Judgement(NOT_MET, "Joints open 4 mm; none over 3 mm wanted.")),
        (
            [1, 2],
            Judgement(
                NOT_KNOWN,
                "Joints open 2 mm at most at 2 joint places; none over 3 mm wanted.",
                "Take 18 more: 18 joint places.",
            ),
        ),
    ],
)
def test_one_joint_over_the_limit_is_enough_to_fail(gaps_mm, judged):
    assert JOINTS.judge(gaps_mm) == judged


def test_a_limit_of_nothing_reads_as_none_wanted():
    proud = LargestRule(0, 2, "Joints proud", "joint places")
    assert proud.judge([0, 1]).words == "Joints proud at 1 of 2 joint places, 1 mm at most; none wanted."


def _frames(hits, points=250):
    return [{"hits": hits, "points": points}]


@pytest.mark.parametrize(("hits", "state"), [(250, MET), (245, MET), (244, NOT_MET), (200, NOT_MET)])
def test_cover_wants_245_of_250_hits(hits, state):
    """98 % of 10 frames of 25 points are 245 hits: default protocol, our judgement."""
    assert COVER.judge(_frames(hits)).state == state


def test_the_lower_bound_of_245_in_250_is_just_under_96_per_cent():
    """Newcombe 1998, Wilson score at one-sided 95 %: (p + z²/2n − z√(p(1−p)/n + z²/4n²)) / (1 + z²/n)
    with p 0.98, n 250, z 1.645 is 0.9595."""
    assert COVER.judge(_frames(245)).words == (
        "Cover 98 % (245 of 250 points), at least 95.9 % allowing for chance; "
        "98 % wanted, 95 % allowing for chance."
    )


def test_half_the_frames_leave_cover_open_unless_it_can_no_longer_reach():
    assert COVER.judge(_frames(125, 125)).settles == "Take 5 frames of 25 points more."
    assert COVER.judge(_frames(119, 125)).state == NOT_MET


def test_a_share_that_is_met_without_its_bound_wants_more_frames():
    few = BoundRule(98, 95, 2, 25, 0.95)
    judged = few.judge(_frames(49, 50))
    assert (judged.state, judged.settles) == (NOT_KNOWN, "Take 4 frames of 25 points more.")


def test_a_bound_above_its_share_is_no_rule():
    with pytest.raises(ImpossibleValue, match="at most 95, the share itself"):
        BoundRule(95, 98, 10, 25, 0.95)


def test_answers_are_said_in_the_words_of_what_was_found():
    live = YesRule("Irrigation live", "Irrigation not live")
    scalped = YesRule("Scalped", "Not scalped", wanted=False)
    assert live.judge([True]) == Judgement(MET, "Irrigation live.")
    assert live.judge([False]) == Judgement(NOT_MET, "Irrigation not live.")
    assert scalped.judge([False]) == Judgement(MET, "Not scalped.")
    assert scalped.judge([True]) == Judgement(NOT_MET, "Scalped.")


def test_one_soft_core_fails_and_missing_cores_leave_it_open():
    soft = YesRule("No soft layer", "A soft layer", of=5, places="cores")
    assert soft.judge([True, False, True]) == Judgement(NOT_MET, "A soft layer at 1 of 3 cores.")
    assert soft.judge([True] * 4) == Judgement(NOT_KNOWN, "No soft layer, so far.", "Take 1 more: 1 core.")


@pytest.mark.parametrize(
    ("mats_mm", "state"),
    [
        ([4.4, 4.5, 4.6, 4.5, 4.5], MET),
        ([9.0, 9.1, 8.9, 9.0, 9.0], NOT_MET),
        ([3, 9, 3, 9, 3], NOT_KNOWN),
        ([4.5, 4.5], NOT_KNOWN),
        ([], NOT_KNOWN),
    ],
)
def test_a_mean_is_met_only_when_its_interval_stays_inside(mats_mm, state):
    assert MAT.judge(mats_mm).state == state


def test_a_doubtful_mean_says_about_how_many_more_would_settle_it():
    judged = MAT.judge([3, 9, 3, 9, 3])
    assert judged.words == "Mat 5.4 mm (2.3 to 8.5 mm) in 5 cores; 3–6 mm wanted."
    assert judged.settles.startswith("About ") and judged.settles.endswith(" cores more would settle it.")


def test_green_speed_is_shown_without_a_threshold():
    speed = ShownRule("green_speed", 1)
    assert speed.judge([{"first": [2.4], "second": [2.6]}]) == Judgement(
        MET, "Green speed 2.5 m on 1 level spot."
    )
    assert speed.judge([{"first": [2.0], "second": [3.0]}]).state == NOT_KNOWN
