"""All constants a club may set."""

import pytest

from growin.agronomy.defaults import COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.settings_table import DEFAULTS, TABLES, check_setting, default_values, loosens


def test_every_table_is_gathered_and_no_key_stands_twice():
    assert len(DEFAULTS) == sum(len(entries) for _, entries in TABLES)
    assert set(default_values()) == set(DEFAULTS)


def test_every_constant_has_a_mark_and_whatever_is_published_names_its_source():
    marks = {PUBLISHED, COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT}
    assert {one.mark for one in DEFAULTS.values()} <= marks
    assert [one.key for one in DEFAULTS.values() if one.mark == PUBLISHED and not one.source] == []


def test_no_key_is_longer_than_a_setting_may_hold():
    assert [key for key in DEFAULTS if len(key) > 80] == []


def test_every_default_may_stand_as_it_is():
    for key, value in default_values().items():
        check_setting(key, value)


@pytest.mark.parametrize(
    ("key", "value", "sentence"),
    [
        (
            "criterion.joints.open_mm",
            200,
            "Widest open joint allowed, mm: 200 is not possible; it should be from 0 to 20.",
        ),
        (
            "criterion.rooting_turf.cores_at_least",
            6,
            "number of cores wanted: 6 is not possible; it should be from 1 to 5, the number taken.",
        ),
        (
            "criterion.rooting_turf.cores_of",
            4.5,
            "Cores taken: 4.5 is not possible; it should be a whole number.",
        ),
        (
            "criterion.cover.lower_percent",
            99,
            "lower bound of the cover, %: 99 is not possible; it should be at most 98, the share itself.",
        ),
        (
            "criterion.growth.cuts_at_least",
            4,
            "cuts with clippings wanted: 4 is not possible; it should be from 1 to 3.",
        ),
        (
            "criterion.speed_of_light",
            1,
            "setting: “criterion.speed_of_light” is not possible; it should be one of the settings listed.",
        ),
    ],
)
def test_a_setting_that_cannot_be_meant_is_refused(key, value, sentence):
    with pytest.raises(ImpossibleValue) as refused:
        check_setting(key, value)
    assert str(refused.value) == sentence


def test_two_settings_are_judged_together():
    in_force = {"criterion.rooting_turf.cores_of": 10}
    check_setting("criterion.rooting_turf.cores_at_least", 8, in_force)


def test_loosening_is_known_for_criteria_and_for_nothing_else():
    assert loosens("criterion.rooting_turf.depth_mm", 50, 40)
    assert not loosens("criterion.rooting_turf.depth_mm", 50, 60)
    assert loosens("criterion.joints.open_mm", 3, 5)
    assert not loosens("sand.bulk_density_t_m3", 1.6, 1.5)
