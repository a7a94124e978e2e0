"""Measures, their values, and what a handful of values says."""

import pytest

from growin.agronomy.fields import DetailError
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.measures import MEASURES, clean_protocol, clean_values
from growin.agronomy.summaries import Summary, more_to_settle, summarise


@pytest.mark.parametrize(
    ("measure", "given", "kept"),
    [
        ("rooting_depth", ["52", 48.5, "", None, 60], [52.0, 48.5, 60.0]),
        ("hand_pull", ["yes", False, "on", 0], [True, False, True, False]),
        ("cover", [{"hits": "24", "points": 25}], [{"hits": 24, "points": 25}]),
        (
            "green_speed",
            {"first": [2.1, 2.2, 2.0], "second": ["2.3"]},
            [{"first": [2.1, 2.2, 2.0], "second": [2.3]}],
        ),
        ("turf_quality", "6", [6]),
        ("irrigation_live", True, [True]),
    ],
)
def test_values_are_kept_in_the_shape_of_their_measure(measure, given, kept):
    assert clean_values(measure, given) == kept


@pytest.mark.parametrize(
    ("measure", "given", "sentence"),
    [
        (
            "disease_share",
            200,
            "Area with active disease or damage, %: 200 is not possible; it should be from 0 to 100.",
        ),
        (
            "cover",
            [{"hits": 26, "points": 25}],
            "hits of “Cover”: 26 is not possible; it should be from 0 to 25.",
        ),
        (
            "cover",
            [{"hits": 1.5, "points": 25}],
            "hits of “Cover”: 1.5 is not possible; it should be a whole number from 0 to 25.",
        ),
        ("cover", [0.98], "Cover: “0.98” is not possible; it should be given as hits and points."),
        (
            "lip",
            ["two"],
            "Lip across a joint, mm: “two” is not possible; it should be a number from 0 to 100.",
        ),
        ("lip", [-1], "Lip across a joint, mm: -1 is not possible; it should be from 0 to 100."),
        (
            "rooting_depth",
            [True],
            "White roots, mm: yes is not possible; it should be a number from 0 to 400.",
        ),
        (
            "hole",
            ["nearly"],
            "Test hole holds its edge and liner: “nearly” is not possible; it should be yes or no.",
        ),
        (
            "turf_quality",
            [6.5],
            "Turf quality: 6.5 is not possible; it should be a whole number from 1 to 9.",
        ),
        (
            "green_speed",
            [{"first": [2], "second": []}],
            "balls rolled one way: 0 is not possible; it should be from 1 to 12, usually 3.",
        ),
        ("lip", [], "values of “Lip across a joint”: 0 is not possible; it should be from 1 to 500."),
        (
            "lip",
            [1] * 501,
            "values of “Lip across a joint”: 501 is not possible; it should be from 1 to 500.",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_what_would_be_right(measure, given, sentence):
    with pytest.raises(ImpossibleValue) as refused:
        clean_values(measure, given)
    assert str(refused.value) == sentence


def test_a_layer_of_organic_matter_runs_downwards():
    said = {"depth_from_mm": 0, "depth_to_mm": 20, "method": "loss on ignition"}
    assert clean_protocol("organic_matter", said) == {
        "depth_from_mm": 0.0,
        "depth_to_mm": 20.0,
        "method": "loss on ignition",
    }
    with pytest.raises(DetailError) as refused:
        clean_protocol("organic_matter", {"depth_from_mm": 20, "depth_to_mm": 20})
    assert refused.value.errors == {
        "depth_to_mm": "foot of the layer, mm: 20 is not possible; it should be deeper than its top, 20."
    }


def test_an_unknown_measure_is_refused():
    with pytest.raises(ImpossibleValue, match="“stimp” is not possible"):
        clean_values("stimp", [1])


def test_the_default_protocol_takes_the_trades_counts():
    """5 cores, 10 points, 20 joint places, 20 and 12 placings, 3 holes, 9 drops, 10 frames: our judgement."""
    keys = ("rooting_depth", "hand_pull", "joint_gap", "lip", "dip", "hole", "drop", "cover")
    assert [MEASURES[key].usual_count for key in keys] == [5, 10, 20, 20, 12, 3, 9, 10]


def test_turf_quality_runs_from_1_to_9():
    """National Turfgrass Evaluation Program: rating scale 1 to 9, 6 the least acceptable."""
    quality = MEASURES["turf_quality"]
    assert (quality.low, quality.high, quality.whole) == (1, 9, True)


def test_five_of_five_cores_have_a_lower_bound_of_57_per_cent():
    """Newcombe 1998, Wilson score: 5 of 5 is surely above 56.6 % only, at 95 % two-sided."""
    summary = summarise(MEASURES["hand_pull"], [True] * 5, confidence=0.95)
    assert summary.interval == (pytest.approx(0.5655, abs=5e-4), 1.0)


def test_a_mean_is_shown_with_its_interval_and_how_many_more_would_narrow_it():
    """Student t of 4 degrees at 90 % two-sided is 2.132 (NIST e-Handbook, table of t):
    mean 50, deviation 10, half-width 2.132 × 10 / √5 = 9.5."""
    values = [36.0, 46.0, 50.0, 54.0, 64.0]
    summary = summarise(MEASURES["rooting_depth"], values)
    half_width = 2.132 * (sum((one - 50) ** 2 for one in values) / 4) ** 0.5 / 5**0.5
    assert summary.interval == (
        pytest.approx(50 - half_width, abs=0.01),
        pytest.approx(50 + half_width, abs=0.01),
    )
    assert (summary.count, summary.mean, summary.low, summary.high) == (5, 50.0, 36.0, 64.0)
    assert summary.words.startswith("50 mm in 5 cores, likely 40.")
    assert summary.words.endswith(f"; {summary.more} more would tell it within 10 %.")


def test_of_lips_and_joints_the_largest_is_said_and_no_more_are_asked_for():
    """The worst place trips the ball; a surer mean changes nothing about it."""
    summary = summarise(MEASURES["lip"], [0.0, 1.0, 3.0, 0.0])
    assert (summary.words, summary.more) == ("largest 3 mm of 4 placings, mean 1 mm.", 0)


def test_one_value_is_no_evidence_of_a_mean():
    assert summarise(MEASURES["mat_depth"], [4.0]) == Summary(
        1, 4.0, 4.0, 4.0, None, "4 mm in 1 core; one value is no evidence of the mean."
    )


def test_frames_are_summed_to_a_share():
    frames = [{"hits": 25, "points": 25}, {"hits": 20, "points": 25}]
    summary = summarise(MEASURES["cover"], frames)
    assert (summary.mean, summary.low, summary.high) == (0.9, 0.8, 1.0)
    assert summary.words.startswith("90 %, 45 of 50 points in 2 frames, likely ")


def test_a_green_speed_whose_ways_differ_by_over_45_cm_is_doubtful():
    """A difference over 0.45 m (18 in) says that the spot is not level: course-rating manual."""
    level, slope = {"first": [2.4] * 3, "second": [2.6] * 3}, {"first": [2.1] * 3, "second": [3.0] * 3}
    assert summarise(MEASURES["green_speed"], [level]).words == "2.5 m on 1 level spot."
    doubtful = summarise(MEASURES["green_speed"], [slope])
    assert doubtful.doubtful
    assert doubtful.words == "2.55 m on 1 level spot; the two ways differ by 0.9 m, which is doubtful."


def test_a_mean_on_the_limit_cannot_be_settled_by_a_number():
    assert more_to_settle([5.0, 7.0], [6.0], 0.9, "cores") == "The mean lies on the limit: take more cores."
