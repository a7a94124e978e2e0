"""How a season's sum stands to its limit: well below, close to it, over it."""

from collections.abc import Sequence
from dataclasses import dataclass

from growin.agronomy.defaults import OUR_JUDGEMENT, Default, table

NEAR, OVER = "close to", "over"

DEFAULTS = table(
    Default(
        "season.near_percent",
        85,
        "%",
        "Share of a season's limit from which it counts as close",
        50,
        100,
        OUR_JUDGEMENT,
    ),
)


@dataclass(frozen=True)
class Bound:
    """A sum beside the most that it may come to, in one unit; ``words`` say of what time it is the sum."""

    total: float
    most: float
    words: str

    @property
    def left(self) -> float:
        """What may follow yet; below nothing where it is over."""
        return self.most - self.total


def tightest(bounds: Sequence[Bound]) -> Bound | None:
    """The one that leaves least; None where nothing bounds."""
    return min(bounds, key=lambda one: one.left, default=None)


def standing(total: float, limit: float, near_percent: float) -> str:
    """:data:`OVER` above the limit, :data:`NEAR` from ``near_percent`` of it on, else empty.

    Parameters
    ----------
    total, limit : in the same unit.
    near_percent : share of the limit, %.
    """
    if total > limit:
        return OVER
    return NEAR if total >= limit * near_percent / 100 else ""
