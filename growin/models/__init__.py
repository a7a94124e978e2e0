"""What should happen and what was decided, as tables: one file per noun."""

from growin.models.answer import AnswerKind, StepAnswer
from growin.models.decision import Decision, Pattern
from growin.models.forecast import KeptForecast
from growin.models.programme import Programme, ProgrammeStep
from growin.models.proposal import Proposal

__all__ = [
    "AnswerKind",
    "Decision",
    "KeptForecast",
    "Pattern",
    "Programme",
    "ProgrammeStep",
    "Proposal",
    "StepAnswer",
]
