"""Speed of a green from rolls of a ball, m."""

from collections.abc import Sequence
from statistics import fmean
from typing import NamedTuple

from growin.agronomy.impossible import ImpossibleValue, require_above, require_range

#: No ball from the bar rolls farther on a green (our judgement), m.
LONGEST_ROLL_M = 30.0


class Speed(NamedTuple):
    """Speed of a level spot and how far its two directions lie apart, m."""

    speed_m: float
    difference_m: float


def green_speed(uphill_m: float, downhill_m: float) -> float:
    """Speed a level green would show, m, from a roll up and one down the same slope.

    Twice the product over the sum. The plain mean reads high on a slope.

    Parameters
    ----------
    uphill_m, downhill_m : above 0 to 30.

    Raises ImpossibleValue outside that range.
    Source: Brede, 1990, Measuring green speed on sloped putting greens, USGA Green Section
    Record 28(6):10-12.
    """
    for what, roll in (("roll uphill, m", uphill_m), ("roll downhill, m", downhill_m)):
        require_above(what, roll)
        require_range(what, roll, 0, LONGEST_ROLL_M)
    return 2 * uphill_m * downhill_m / (uphill_m + downhill_m)


def green_speed_from_rolls(first_direction_m: Sequence[float], second_direction_m: Sequence[float]) -> Speed:
    """Speed of a level spot: the mean of the means of both directions, and their difference.

    Parameters
    ----------
    first_direction_m, second_direction_m : at least one roll each, above 0 to 30.

    Raises ImpossibleValue outside that range.
    Source: USGA instruction booklet.
    """
    for what, rolls in (("rolls one way", first_direction_m), ("rolls back", second_direction_m)):
        if not len(rolls):
            raise ImpossibleValue(f"number of {what}", 0, "at least 1")
        require_above(f"{what}, m", rolls)
        require_range(f"{what}, m", rolls, 0, LONGEST_ROLL_M)
    first_m, second_m = fmean(first_direction_m), fmean(second_direction_m)
    return Speed((first_m + second_m) / 2, abs(first_m - second_m))
