"""The grow-in programme of one green: facts, climate and settings in, dated steps out."""

from growin.agronomy.programme.as_json import TABLES, default_settings, programme_from_file
from growin.agronomy.programme.draw import FAR, draw_programme, likely_plan
from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.programme.in_play import is_of_a_year
from growin.agronomy.programme.opening import IN_PLAY, OPENING_KEY
from growin.agronomy.programme.step import GATE, INSPECTION, READING, STEP_ONLY_KINDS, Step

__all__ = [
    "FAR",
    "GATE",
    "INSPECTION",
    "IN_PLAY",
    "OPENING_KEY",
    "READING",
    "STEP_ONLY_KINDS",
    "TABLES",
    "GreenFacts",
    "Step",
    "default_settings",
    "draw_programme",
    "is_of_a_year",
    "likely_plan",
    "programme_from_file",
]
