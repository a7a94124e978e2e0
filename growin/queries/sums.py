"""What every everyday sum shares: where it is asked, what an answer is, how amounts are said.

A sum takes the cleaned fields of its form and the :class:`Place` where it is asked, and gives an
:class:`Answer`. What cannot be worked out raises ImpossibleValue or NoAnswer with a sentence.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from greens.models import Club
from greens.queries import settings
from growin.agronomy.plain_words import amount
from growin.queries import facts


class NoAnswer(ValueError):
    """Why there is no answer, as a sentence beside the field it belongs to."""

    def __init__(self, field: str, sentence: str):
        self.field = field
        super().__init__(sentence)


@dataclass(frozen=True)
class Place:
    """Where and when a sum is asked: the club, its day, its constants in force."""

    club: Club
    on: date
    settings: Mapping[str, float]
    bulk_density_t_m3: float

    @property
    def latitude_deg(self) -> float:
        return float(self.club.latitude_deg)


@dataclass(frozen=True)
class Answer:
    """``figures`` are pairs of words and value, the first one the largest; ``shares`` pairs of green and
    value; ``notes`` sentences."""

    figures: tuple[tuple[str, str], ...]
    shares: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()


def place_of(club: Club, on: date) -> Place:
    """Where and when sums are asked; two or three queries."""
    in_force = settings.in_force(club, on)
    return Place(club, on, in_force, facts.bulk_density_t_m3(club, in_force))


def shared(shares: Sequence[tuple[str, str]]) -> tuple[tuple[str, str], ...]:
    """A table only where there is more than one green."""
    return tuple(shares) if len(shares) > 1 else ()


def tonnes(mass_t: float) -> str:
    return amount(mass_t, "t", 2) if mass_t >= 1 else amount(mass_t * 1000, "kg", 0)
