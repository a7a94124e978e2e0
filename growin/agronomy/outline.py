"""The outline of a green as its area was measured, and places within it, in metres.

x runs to the right and y up the sheet, from the point that the tape was laid from: the centre of
the radii, or the middle of the base line. The first radius points up, the others follow clockwise.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from growin.agronomy.impossible import ImpossibleValue, require_above

#: Length by width of the oval that stands in for a green whose area alone is known: our judgement.
OVAL_LENGTH_BY_WIDTH = 1.25
OVAL_POINTS = 48
#: So far beyond its edge a place still counts as one of the green, m: a tap with a glove, a phone's
#: own position and the apron are no closer. Our judgement.
BESIDE_M = 4.0
#: A degree of latitude, m: mean of the WGS 84 ellipsoid (a quarter meridian of 10,001.966 km by 90).
DEGREE_M = 111_133.0

Place = tuple[float, float]


@dataclass(frozen=True)
class Outline:
    """A closed figure through ``points_m``; ``words`` say how it was found."""

    points_m: tuple[Place, ...]
    words: str

    @property
    def box_m(self) -> tuple[float, float, float, float]:
        """Left, lower, right and upper end."""
        xs, ys = zip(*self.points_m, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def centre_m(self) -> Place:
        """Centre of gravity of the figure."""
        crossed = [(x1 * y2 - x2 * y1, x1 + x2, y1 + y2) for (x1, y1), (x2, y2) in self._sides()]
        thrice = 3 * sum(cross for cross, _, _ in crossed)
        return sum(c * x for c, x, _ in crossed) / thrice, sum(c * y for c, _, y in crossed) / thrice

    @property
    def area_m2(self) -> float:
        """Area of the straight-sided figure."""
        return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in self._sides())) / 2

    def holds(self, place: Place, beside_m: float = 0.0) -> bool:
        """Whether a place lies within the figure, or no further than ``beside_m`` from its edge."""
        return self._encloses(place) or self._beside_m(place) <= beside_m

    def _sides(self) -> list[tuple[Place, Place]]:
        return list(zip(self.points_m, (*self.points_m[1:], self.points_m[0]), strict=True))

    def _encloses(self, place: Place) -> bool:
        """By the sides that a line to the right of the place crosses: odd is within."""
        x, y = place
        crossed = [
            x < x1 + (y - y1) * (x2 - x1) / (y2 - y1)
            for (x1, y1), (x2, y2) in self._sides()
            if (y1 > y) != (y2 > y)
        ]
        return sum(crossed) % 2 == 1

    def _beside_m(self, place: Place) -> float:
        return min(_from_side(place, *side) for side in self._sides())


def _from_side(place: Place, start: Place, end: Place) -> float:
    """Distance from a side, its ends counted."""
    along, to = (end[0] - start[0], end[1] - start[1]), (place[0] - start[0], place[1] - start[1])
    length = along[0] ** 2 + along[1] ** 2
    share = max(0.0, min(1.0, (along[0] * to[0] + along[1] * to[1]) / length)) if length else 0.0
    return math.dist(to, (share * along[0], share * along[1]))


def outline_by_radii(radii_m: Sequence[float]) -> Outline:
    """The figure through the ends of radii at equal angles from one point.

    Raises ImpossibleValue for fewer than three radii or one not above zero.
    """
    if len(radii_m) < 3:
        raise ImpossibleValue("number of radii", len(radii_m), "at least 3")
    require_above("radius, m", radii_m)
    turns = [2 * math.pi * n / len(radii_m) for n in range(len(radii_m))]
    ends = zip(radii_m, turns, strict=True)
    points = tuple((radius * math.sin(turn), radius * math.cos(turn)) for radius, turn in ends)
    return Outline(points, "through the ends of the measured radii, the first one pointing up")


def outline_by_offsets(widths_m: Sequence[float], spacing_m: float) -> Outline:
    """Widths across a base line that runs from left to right, half of each on either side of it.

    Raises ImpossibleValue for fewer than two widths, none above zero, or a spacing not above zero.
    """
    if len(widths_m) < 2 or max(widths_m) <= 0:
        raise ImpossibleValue("widths", len(widths_m), "at least 2, one of them above 0")
    require_above("spacing of the widths, m", spacing_m)
    middle = (len(widths_m) - 1) / 2
    upper = [((n - middle) * spacing_m, width / 2) for n, width in enumerate(widths_m)]
    lower = [(x, -y) for x, y in reversed(upper) if y > 0]
    words = "by the measured widths, half of each on either side of the base line"
    return Outline((*upper, *lower), words)


def outline_by_area(area_m2: float) -> Outline:
    """An oval of that area, longer across the sheet than up it.

    Raises ImpossibleValue for an area not above zero.
    """
    require_above("area, m²", area_m2)
    turns = [2 * math.pi * n / OVAL_POINTS for n in range(OVAL_POINTS)]
    # The straight-sided figure has the area itself, not the oval around it.
    filled = OVAL_POINTS / 2 * math.sin(2 * math.pi / OVAL_POINTS)
    height = math.sqrt(area_m2 / filled / OVAL_LENGTH_BY_WIDTH)
    points = tuple((OVAL_LENGTH_BY_WIDTH * height * math.sin(t), height * math.cos(t)) for t in turns)
    return Outline(points, "an oval of the green's area, since its shape was not measured")


def clean_places(places, count: int, outline: Outline | None, words: str) -> list[list[float] | None]:
    """Places of ``count`` values in their order, to 0.1 m; empty where none was given at all.

    Raises
    ------
    ImpossibleValue
        For another number of places than values, one that is no pair of figures, or one that lies
        further beside the outline than BESIDE_M; ``words`` name what has the place ("core").
    """
    given = list(places or [])
    if not any(one is not None for one in given):
        return []
    if len(given) != count:
        raise ImpossibleValue("number of places", len(given), f"{count}, one for each value")
    if outline is None:
        raise ImpossibleValue("place on the green", "given", "left out: the area of the green is not known")
    return [one and _clean_place(one, outline, f"{words} {n}") for n, one in enumerate(given, start=1)]


def _clean_place(place, outline: Outline, words: str) -> list[float]:
    if not _is_pair(place):
        raise ImpossibleValue(f"place of {words}", f"“{str(place)[:40]}”", "two figures in metres")
    x, y = (round(float(one), 1) for one in place)
    if not outline.holds((x, y), BESIDE_M):
        right = f"on the green, or at most {BESIDE_M:g} m from its edge"
        raise ImpossibleValue(f"place of {words}", f"{x:g} m across, {y:g} m up", right)
    return [x, y]


def _is_pair(place) -> bool:
    figures = isinstance(place, list | tuple) and len(place) == 2
    return figures and all(
        isinstance(one, int | float) and not isinstance(one, bool) and math.isfinite(one) for one in place
    )
