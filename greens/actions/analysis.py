"""Sheets of a laboratory, kept and taken back."""

from collections.abc import Mapping
from datetime import date

from django.db import transaction
from django.utils import timezone

from greens.actions import trail
from greens.models import Analysis, Green, Membership
from growin.agronomy.analysis_table import SOIL, check_figures
from growin.agronomy.fields import DetailError
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.plain_words import dated
from growin.agronomy.soil_test import EXTRACTANTS


@transaction.atomic
def keep_analysis(
    *,
    green: Green,
    by: Membership,
    kind: str,
    on: date,
    values: Mapping[str, float],
    laboratory: str = "",
    extractant: str = "",
    depth_mm: int | None = None,
) -> Analysis:
    """A sheet as it was printed; figures without their extractant mean nothing.

    Raises
    ------
    DetailError
        For a day to come, a figure that cannot be, or a soil without its extractant or depth.
    """
    errors = _wrong(green, kind, on, values, extractant, depth_mm)
    if errors:
        raise DetailError(errors)
    of_soil = {"extractant": extractant, "depth_mm": depth_mm} if kind == SOIL else {}
    row = Analysis.objects.create(
        green=green, by=by, kind=kind, on=on, laboratory=laboratory.strip(), values=dict(values), **of_soil
    )
    deed = f"{row.get_kind_display()} of {green.name} analysed"
    trail.write(
        club=green.club, by=by, deed=deed, row=row, green=green, changes=trail.as_created(dict(values))
    )
    return row


def _wrong(
    green: Green, kind: str, on: date, values, extractant: str, depth_mm: int | None
) -> dict[str, str]:
    wrong = {}
    if on > green.club.local_today():
        wrong["on"] = f"{dated(on)} lies in the future; enter the sheet when it has come."
    if kind == SOIL and extractant not in EXTRACTANTS:
        wrong["extractant"] = "Say by which extractant: figures of two of them cannot be compared."
    if kind == SOIL and not depth_mm:
        wrong["depth_mm"] = "Say how deep the sample was taken."
    try:
        check_figures(kind, values)
    except ImpossibleValue as refused:
        wrong[""] = str(refused)
    return wrong


@transaction.atomic
def take_back(*, analysis: Analysis, by: Membership) -> None:
    """It counts no more; it stays in the record of changes."""
    trail.change(analysis, {"taken_back_at": timezone.now()})
    green = analysis.green
    deed = f"Took back an analysis of {analysis.get_kind_display().lower()}"
    trail.write(club=green.club, by=by, deed=deed, row=analysis, green=green)
