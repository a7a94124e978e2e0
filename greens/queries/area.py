"""Measurements of a green's area, and how far the published sum of radii is off for each."""

from dataclasses import dataclass

from greens.choices import AreaMethod
from greens.models import Area, Green
from growin.agronomy.area import RadiiAreas, compare_radii_methods


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
