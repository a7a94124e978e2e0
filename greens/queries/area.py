"""Measurements of a green's area, and how far the published sum of radii is off for each."""

from dataclasses import dataclass

from greens.choices import AreaMethod
from greens.models import Area, Club, Green
from growin.agronomy.area import RadiiAreas, compare_radii_methods
from growin.agronomy.outline import Outline, outline_by_area, outline_by_offsets, outline_by_radii


@dataclass(frozen=True)
class Measured:
    """One measurement; ``radii`` compares the ways of adding radii, where it has them."""

    area: Area
    radii: RadiiAreas | None

    @property
    def too_low_percent(self) -> float:
        """How far the published sum reads low for these radii; 0 where it is right."""
        return round(-self.radii.off_percent, 1) if self.radii else 0.0

    @property
    def area_m2(self) -> float:
        return self.area.area_dm2 / 100


def measured(green: Green) -> list[Measured]:
    """All measurements of a green and its parts, newest first; one query."""
    return [compared(row) for row in green.areas.select_related("by")]


def compared(row: Area) -> Measured:
    by_radii = row.method == AreaMethod.RADII
    return Measured(row, compare_radii_methods(row.values_m) if by_radii else None)


def method_named(word: str | None) -> AreaMethod:
    """The way of measuring that an address asks for; typing it in when it asks for none."""
    return AreaMethod(word) if word in AreaMethod.values else AreaMethod.TYPED


def outline(green: Green) -> Outline | None:
    """The shape of a green by its newest whole measurement; none while its area is not known. One query."""
    return _drawn(green, green.areas.filter(part="").first())


def outlines(club: Club) -> dict[int, Outline | None]:
    """The shape of every green of the club, by its id; two queries."""
    rows = Area.objects.filter(green__club=club, part="").order_by("measured_on", "pk")
    newest = {row.green_id: row for row in rows}
    return {green.pk: _drawn(green, newest.get(green.pk)) for green in club.greens.all()}


def _drawn(green: Green, row: Area | None) -> Outline | None:
    if row and row.method == AreaMethod.RADII:
        return outline_by_radii(row.values_m)
    if row and row.method == AreaMethod.OFFSETS:
        return outline_by_offsets(row.values_m, float(row.spacing_m))
    return outline_by_area(green.area_m2) if green.area_m2 else None
