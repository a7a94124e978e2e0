"""Pictures: the same facts in the same units are drawn once, other facts or units anew."""

from dataclasses import dataclass

import pytest
from django.core.cache import cache

from greens import units
from greens.choices import Units
from growin.charts import ink


@dataclass(frozen=True)
class Facts:
    depth_mm: float


@pytest.fixture
def drawn() -> list:
    cache.clear()
    return []


def test_the_same_facts_are_drawn_once(drawn):
    @ink.drawn_once
    def core_svg(facts: Facts, narrow: bool = False) -> bytes:
        drawn.append((facts.depth_mm, narrow, units.active()))
        return b"<svg/>"

    for facts in (Facts(50), Facts(50), Facts(60)):
        assert core_svg(facts) == b"<svg/>"
    core_svg(Facts(50), narrow=True)
    with units.shown_in(Units.US):
        core_svg(Facts(50))
    metric, us = units.active(), Units.US
    assert drawn == [(50, False, metric), (60, False, metric), (50, True, metric), (50, False, us)]
