import pytest

from growin.agronomy import dressing
from growin.agronomy.defaults import values
from growin.agronomy.impossible import ImpossibleValue

SETTINGS = values(dressing.DEFAULTS)


@pytest.mark.parametrize(("pass_kg_m2", "depth_mm"), [(0.2, 0.125), (0.8, 0.5)])
def test_a_light_pass_is_an_eighth_to_half_a_millimetre(pass_kg_m2, depth_mm):
    # 0.2–0.8 kg/m² is 0.13–0.5 mm (USGA 2014).
    assert dressing.depth_mm(pass_kg_m2, 1.6) == pytest.approx(depth_mm)


def test_nebraska_season_in_tonnes():
    # 6.2 mm is about 99 t/ha (USGA): 1 mm is 10 m³/ha, about 16 t/ha at 1.6 t/m³.
    whole = dressing.sand_for(6.2 * 1.6, 10_000, 1.6)
    assert whole.mass_t == pytest.approx(99, abs=0.5)
    assert whole.volume_m3 == pytest.approx(62)


def test_passes_come_every_seven_to_fourteen_days():
    # Every 7–14 days in growth (common practice): ours from 14 to 10, so that a season stays within 12 kg/m².
    assert [dressing.interval_days(pace, SETTINGS) for pace in (0, 1)] == [14, 10]


@pytest.mark.parametrize(
    ("pass_kg_m2", "known", "said"),
    [
        (0.5, {}, ()),
        # 3 kg/m² or more at once is hard to work in (British laboratory).
        (3, {}, ("3 kg/m² at once is hard to work in; split it.",)),
        (1.5, {"winter": True}, ("A heavy dressing in winter smothers the grass and invites disease.",)),
        (0.5, {"knitted": False}, ("Not over turf or seedlings that have not taken.",)),
        # Britain 6–12 kg/m² a season (common practice).
        (
            0.5,
            {"season_so_far_kg_m2": 12},
            ("With this the season stands at 12.5 kg/m², over the usual 12 kg/m².",),
        ),
    ],
)
def test_dressings_are_judged_in_words(pass_kg_m2, known, said):
    assert dressing.judge_dressing(pass_kg_m2, SETTINGS, **known) == said


def test_sand_is_never_taken_off():
    with pytest.raises(ImpossibleValue):
        dressing.judge_dressing(-0.1, SETTINGS)
