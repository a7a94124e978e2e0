"""Cautions said where work is planned and logged."""

import pytest

from growin.agronomy.cautions import CAUTIONS, DEFAULTS, cautions_for
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.works import WORKS


def _keys(work, **day):
    return [one.key for one in cautions_for(work, **day)]


def test_feeding_names_leaf_water_and_frost():
    assert _keys("feed") == ["fertiliser", "fertiliser_near_water", "frozen_or_wet_turf"]


def test_construction_topdressing_and_spraying_carry_their_own():
    assert "construction_site" in _keys("build_work")
    assert "sand_dust" in _keys("dressing")
    assert "spray" in _keys("spray")
    assert "buried_services" in _keys("aerate")


def test_without_the_days_weather_a_caution_opens_with_if():
    assert all(one.sentence.startswith("If ") for one in CAUTIONS.values())


def test_the_distance_to_water_defaults_to_3_m_and_is_said_until_it_is_kept():
    """Great Britain 2 m (published), Ireland 3 m (from memory): the wider is the default."""
    assert DEFAULTS["caution.distance_to_water_m"].value == 3
    assert "within 3 m" in cautions_for("feed")[1].sentence
    assert cautions_for("feed", distance_to_water_m=2)[1].sentence == (
        "Water lies 2 m away: feed nothing within 3 m of it."
    )
    assert _keys("feed", distance_to_water_m=3) == ["fertiliser", "frozen_or_wet_turf"]


def test_a_club_may_keep_further_from_water():
    near = cautions_for("feed", distance_to_water_m=5, settings={"caution.distance_to_water_m": 10})
    assert near[1].sentence == "Water lies 5 m away: feed nothing within 10 m of it."


def test_a_frosty_day_is_said_as_it_is():
    assert cautions_for("roll", day_min_c=-2)[0].sentence == (
        "The night went down to -2 °C: keep feet, wheels and fertiliser off while leaf or ground is frozen."
    )


def test_a_wet_day_is_said_as_it_is():
    assert cautions_for("roll", day_min_c=6, rain_mm=22)[0].sentence == (
        "22 mm of rain fell: keep feet, wheels and fertiliser off while leaf or ground is waterlogged."
    )


def test_a_mild_dry_day_needs_no_word_of_frost():
    assert _keys("roll", day_min_c=6, rain_mm=0) == ["machinery"]


def test_half_the_weather_rules_nothing_out():
    assert _keys("roll", day_min_c=6) == ["frozen_or_wet_turf", "machinery"]


def test_rain_within_48_hours_stops_the_spreader():
    assert cautions_for("feed", rain_next_48_h_mm=18)[0].sentence == (
        "18 mm of rain is expected within 48 hours: wait with the fertiliser."
    )


def test_every_caution_defers_to_somebody_and_none_says_compliant():
    said = [one.said for one in CAUTIONS.values()]
    assert all(one.endswith((" decides.", " decide.")) for one in said)
    assert not any("compliant" in one.lower() for one in said)


def test_the_spray_caution_defers_to_the_label_first():
    assert CAUTIONS["spray"].refers_to == "the label, local law and the licensed operator"


def test_every_kind_of_work_can_be_asked():
    assert {key: len(cautions_for(key)) for key in WORKS} == {
        key: len(one.cautions) for key, one in WORKS.items()
    }


def test_an_unknown_kind_is_refused():
    with pytest.raises(ImpossibleValue):
        cautions_for("mow")
