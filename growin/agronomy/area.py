"""The area of a green, m², from a tape: radii from one point, or offsets from a base line."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from growin.agronomy.impossible import ImpossibleValue, require_above, require_range

FEWEST_RADII = 3


class RadiiAreas(NamedTuple):
    """One set of radii by three methods, m², and how far the published one reads off, %.

    ``off_percent`` compares the average-radius area with the sectors; it is never above zero.
    """

    average_m2: float
    sectors_m2: float
    polygon_m2: float
    off_percent: float


def area_by_radii(radii_m: Sequence[float]) -> float:
    """Area from radii at equal angles by the published average-radius method, m².

    pi times the square of the mean radius. It reads low on every shape that is not a
    circle; :func:`area_by_sectors` is closer.

    Raises ImpossibleValue for fewer than three radii or one not above zero.
    Source: horticulture training modules; putting-green measuring sheet.
    """
    radii = _radii(radii_m)
    return float(np.pi * radii.mean() ** 2)


def area_by_sectors(radii_m: Sequence[float]) -> float:
    """Area from radii at equal angles as a sum of sectors of circles, m².

    pi times the mean of the squared radii.

    Raises ImpossibleValue for fewer than three radii or one not above zero.
    Source: area in polar coordinates (half the integral of the squared radius).
    """
    radii = _radii(radii_m)
    return float(np.pi * np.mean(radii**2))


def area_by_polygon(radii_m: Sequence[float]) -> float:
    """Area of the straight-sided figure through the ends of radii at equal angles, m².

    The sum of the triangles between neighbouring radii; it cuts bulging edges short.

    Raises ImpossibleValue for fewer than three radii or one not above zero.
    Source: land surveying texts (area of a triangle from two sides and their angle).
    """
    radii = _radii(radii_m)
    return float(np.sum(radii * np.roll(radii, -1)) / 2 * np.sin(2 * np.pi / len(radii)))


def compare_radii_methods(radii_m: Sequence[float]) -> RadiiAreas:
    """The average-radius area beside sectors and polygon, and how far it is off, %.

    Raises ImpossibleValue for fewer than three radii or one not above zero.
    """
    average, sectors = area_by_radii(radii_m), area_by_sectors(radii_m)
    off_percent = min(0.0, (average / sectors - 1) * 100)
    return RadiiAreas(average, sectors, area_by_polygon(radii_m), off_percent)


def area_by_offsets(offsets_m: Sequence[float], spacing_m: float) -> float:
    """Area from full widths, or distances from a base line, at equal spacing, m².

    Trapezoidal rule: the spacing times half the first and last offset plus all the others.

    Raises ImpossibleValue for fewer than two offsets, one below zero, or a spacing not
    above zero.
    Source: land surveying texts.
    """
    if len(offsets_m) < 2:
        raise ImpossibleValue("number of offsets", len(offsets_m), "at least 2")
    require_range("offset, m", offsets_m, 0)
    require_above("spacing of the offsets, m", spacing_m)
    return float(np.trapezoid(np.asarray(offsets_m, dtype=float), dx=spacing_m))


def _radii(radii_m: Sequence[float]) -> np.ndarray:
    if len(radii_m) < FEWEST_RADII:
        raise ImpossibleValue("number of radii", len(radii_m), f"at least {FEWEST_RADII}")
    require_above("radius, m", radii_m)
    return np.asarray(radii_m, dtype=float)
