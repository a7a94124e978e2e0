"""The grow-in programme of one green: facts, climate and settings in, dated steps out."""

from growin.agronomy.programme.facts import GreenFacts
from growin.agronomy.programme.step import GATE, INSPECTION, READING, STEP_ONLY_KINDS, Step

__all__ = ["GATE", "INSPECTION", "READING", "STEP_ONLY_KINDS", "GreenFacts", "Step"]
