"""What the record says of a green's water: waterings, what its rootzone holds, roots, moisture, evenness."""

from collections.abc import Iterable
from datetime import date
from statistics import fmean

from greens.choices import LayerKind
from greens.models import EntryGreen, Establishment, Layer, ReadingSet, Turf

WATERINGS = ("water", "hand_water")
ROOTS, MOISTURE = "rooting_depth", "moisture"


def waterings(
    rebuilt: Iterable[Establishment], first: date, last: date
) -> list[tuple[int, date, float | None]]:
    """Green, day and mm of each watering that counts; hand watering of one place alone is left out.

    The depth is None where nobody wrote it down. One query.
    """
    lines = EntryGreen.objects.filter(
        green__in=[one.green_id for one in rebuilt],
        kind__in=WATERINGS,
        on__range=(first, last),
        entry__taken_back_at=None,
    )
    rows = lines.values_list("green_id", "on", "entry__details").order_by("on", "entry_id")
    return [(green, on, details.get("depth_mm")) for green, on, details in rows if not details.get("place")]


def capillary_percent(rebuilt: Iterable[Establishment]) -> dict[int, float]:
    """Water that each rootzone holds by its laboratory sheet, % by volume, by establishment; one query."""
    layers = Layer.objects.filter(
        establishment__in=rebuilt, kind=LayerKind.ROOTZONE, material__capillary_percent__isnull=False
    )
    rows = layers.values_list("establishment_id", "material__capillary_percent")
    return {pk: float(percent) for pk, percent in rows}


def turf_mm(rebuilt: Iterable[Establishment]) -> dict[int, float]:
    """Thickness the turf was cut at, by establishment; one query."""
    turf = Turf.objects.filter(establishment__in=rebuilt, cut_thickness_mm__isnull=False)
    return {pk: float(mm) for pk, mm in turf.values_list("establishment_id", "cut_thickness_mm")}


def newest_means(rebuilt: Iterable[Establishment], as_of: date) -> dict[tuple[int, str], tuple[date, float]]:
    """Day and mean of the newest roots and the newest moisture, by establishment and measure; one query."""
    sets = ReadingSet.objects.filter(
        establishment__in=rebuilt, measure__in=(ROOTS, MOISTURE), taken_back_at=None, on__lte=as_of
    )
    rows = sets.order_by("on", "pk").values_list("establishment_id", "measure", "on", "values")
    return {(pk, measure): (on, fmean(values)) for pk, measure, on, values in rows if values}


def evenness_percent(rebuilt: Iterable[Establishment], as_of: date) -> dict[int, float]:
    """Evenness by the lowest quarter as last checked on each green; one query."""
    lines = EntryGreen.objects.filter(
        green__in=[one.green_id for one in rebuilt],
        kind="irrigation_check",
        on__lte=as_of,
        entry__taken_back_at=None,
    )
    rows = lines.values_list("green_id", "entry__details").order_by("on", "entry_id")
    found = ((green, details.get("uniformity_percent")) for green, details in rows)
    return {green: float(percent) for green, percent in found if percent}
