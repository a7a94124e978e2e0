"""One way to refuse what cannot be: the value that was given, and what would be right."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np


class ImpossibleValue(ValueError):
    """A value outside what nature, arithmetic or the trade allows.

    Attributes
    ----------
    what : str
        The quantity in plain words, with its unit ("depth of the gravel, mm").
    value
        What was given.
    right : str
        What would have been right ("from 0 to 600").
    """

    def __init__(self, what: str, value, right: str):
        self.what, self.value, self.right = what, value, right
        shown = f"{value:.10g}" if isinstance(value, float) else value
        super().__init__(f"{what}: {shown} is not possible; it should be {right}.")


def _worst(values: np.ndarray, low: float, high: float):
    """The first value outside the range, or that is no number at all."""
    outside = ~np.isfinite(values) | (values < low) | (values > high)
    return values[outside][0].item() if outside.any() else None


def _lies_within(numbers: np.ndarray, low: float, high: float) -> bool:
    """Whether least and greatest lie in the range; what is no number makes both of them none."""
    if not numbers.size:
        return True
    least, greatest = numbers.min(), numbers.max()
    return bool(least >= low and greatest <= high and np.isfinite(least) and np.isfinite(greatest))


def require_range(what: str, value, low: float = -np.inf, high: float = np.inf) -> None:
    """Refuse a scalar or an array that leaves ``low``..``high`` or is not finite.

    Raises
    ------
    ImpossibleValue
        With the offending value and the range that would be right.
    """
    numbers = np.asarray(value, dtype=float)
    if not _lies_within(numbers, low, high):
        raise ImpossibleValue(what, _worst(np.atleast_1d(numbers), low, high), describe_range(low, high))


def require_above(what: str, value, floor: float = 0.0) -> None:
    """Refuse anything not strictly above ``floor``.

    Raises
    ------
    ImpossibleValue
        With the offending value.
    """
    numbers = np.atleast_1d(np.asarray(value, dtype=float))
    bad = ~np.isfinite(numbers) | (numbers <= floor)
    if bad.any():
        raise ImpossibleValue(what, numbers[bad][0].item(), f"above {floor:g}")


def require_same_length(what: str, *series: Sequence) -> None:
    """Refuse series that should pair up but do not.

    Raises
    ------
    ImpossibleValue
        With the lengths that were given.
    """
    lengths = [len(one) for one in series]
    if len(set(lengths)) > 1:
        raise ImpossibleValue(what, lengths, "series of equal length")


@lru_cache(maxsize=512)
def describe_range(low: float, high: float) -> str:
    """A range in words: "from 0 to 100", "at least 0", "at most 5", "a number"."""
    if np.isfinite(low) and np.isfinite(high):
        return f"from {low:g} to {high:g}"
    if np.isfinite(low):
        return f"at least {low:g}"
    return f"at most {high:g}" if np.isfinite(high) else "a number"
