"""Who was warned against a planned opening day, whether anybody acknowledged it, and who hears next."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from greens.choices import Role
from greens.models import Establishment, Notice
from growin.models import EarlyWarning, RaisedStep
from growin.queries import warning as warnings

OPERATORS = "operators"
#: Who hears a warning, step by step, by who hears it first.
CHAINS: Mapping[str, tuple[tuple[str, ...], ...]] = {
    Role.HEAD: ((Role.HEAD,), (Role.COMMITTEE,), (OPERATORS,)),
    Role.COMMITTEE: ((Role.COMMITTEE,), (Role.HEAD, Role.ADVISER)),
}
WORDS: Mapping[str, str] = {
    Role.HEAD: "the head greenkeeper",
    Role.COMMITTEE: "every committee member",
    Role.ADVISER: "the adviser",
    OPERATORS: "whoever runs the site",
}


@dataclass(frozen=True)
class Warned:
    """A warning that stands, with the ``word`` that was said on it, if any."""

    warning: EarlyWarning
    word: Notice | None

    @property
    def steps(self) -> list[RaisedStep]:
        return list(self.warning.steps.all())

    @property
    def goes_on_at(self) -> datetime | None:
        """When it goes on unless somebody acknowledges it before."""
        return None if self.word else self.warning.next_at

    @property
    def goes_on_to(self) -> str:
        """ "the head greenkeeper and the adviser"; empty at the end of the chain."""
        left = CHAINS[self.warning.first][len(self.steps) :]
        return " and ".join(WORDS[one] for one in left[0]) if left else ""


def warned(establishment: Establishment, as_of: date) -> list[Warned]:
    """The warnings that stand against days to come, as they stand today; none when a past day is asked."""
    if as_of != establishment.green.club.local_today():
        return []
    rows = warnings.against_days_to_come(establishment, as_of)
    return [Warned(row, warnings.acknowledgement(row)) for row in rows]
