"""What should happen and what was decided, as tables: one file per noun."""

from growin.models.answer import AnswerKind, StepAnswer
from growin.models.decision import Decision, Pattern
from growin.models.forecast import KeptForecast
from growin.models.lookout import Lookout
from growin.models.programme import Programme, ProgrammeStep
from growin.models.proposal import Proposal
from growin.models.warning import Basis, EarlyWarning, RaisedStep

__all__ = [
    "AnswerKind",
    "Basis",
    "Decision",
    "EarlyWarning",
    "KeptForecast",
    "Lookout",
    "Pattern",
    "Programme",
    "ProgrammeStep",
    "Proposal",
    "RaisedStep",
    "StepAnswer",
]
