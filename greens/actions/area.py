"""The area of a green: typed, from radii, or from offsets. Past entries keep the area they had."""

from collections.abc import Sequence
from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.choices import AreaMethod
from greens.models import Area, Green, Membership
from growin.agronomy.area import area_by_offsets, area_by_sectors


@transaction.atomic
def measure_area(
    *,
    green: Green,
    by: Membership,
    method: AreaMethod,
    measured_on: date,
    values_m: Sequence[float] = (),
    spacing_m=None,
    area_m2=None,
    part: str = "",
) -> Area:
    """Keep a measurement; the newest of the whole green becomes its area.

    Raises ImpossibleValue for radii or offsets that make no area.
    """
    found_m2 = area_of(method, values_m, spacing_m, area_m2)
    values = {"part": part, "method": method, "values_m": list(values_m), "spacing_m": spacing_m}
    values |= {"area_dm2": round(found_m2 * 100), "measured_on": measured_on}
    row = Area.objects.create(green=green, by=by, **values)
    changes = trail.as_created(values) | take_newest(green)
    deed = f"Measured {part or 'the whole'} of {green.name}: {row.area_dm2 / 100:g} m²"
    trail.write(club=green.club, by=by, deed=deed, row=row, green=green, changes=changes)
    return row


def area_of(method: AreaMethod, values_m: Sequence[float], spacing_m, area_m2) -> float:
    """m² by the method; radii as a sum of sectors, which is closer than the square of their mean."""
    if method == AreaMethod.RADII:
        return area_by_sectors(values_m)
    if method == AreaMethod.OFFSETS:
        return area_by_offsets(values_m, float(spacing_m))
    return float(area_m2)


def take_newest(green: Green) -> dict:
    """Set the green's area to its newest whole measurement; what changed, as the trail keeps it."""
    newest = green.areas.filter(part="").order_by("-measured_on", "-pk").first()
    changes = trail.change(green, {"area_dm2": newest.area_dm2}) if newest else {}
    return {"green_area_dm2": changes["area_dm2"]} if changes else {}
