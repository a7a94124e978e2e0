"""What rebuilt greens have had in their first season: nitrogen and sand, for all of them at once."""

from collections.abc import Iterable
from datetime import date, timedelta

from django.db.models import Sum

from greens.models import Club, EntryNutrient, Establishment
from greens.queries import diary
from growin.agronomy.season import year_start

MG_M2_PER_KG_HA = 100
FIRST_SEASON = timedelta(days=365)


def in_first_season(rebuild: Establishment, on: date) -> bool:
    """Whether the bands of a first season count: within a year of laying or sowing."""
    laid = rebuild.established_on
    return laid is not None and laid <= on < laid + FIRST_SEASON


def nitrogen_kg_ha(rebuilds: Iterable[Establishment], on: date) -> dict[int, float]:
    """Nitrogen of each rebuild up to a day, what was raked in before laying too; one query."""
    rows = EntryNutrient.objects.filter(
        element="N",
        product__entry__lines__establishment__in=list(rebuilds),
        product__entry__taken_back_at=None,
        product__entry__on__lte=on,
    )
    sums = rows.order_by().values("product__entry__lines__establishment").annotate(total=Sum("mg_m2"))
    return {row["product__entry__lines__establishment"]: row["total"] / MG_M2_PER_KG_HA for row in sums}


def sand_kg_m2(club: Club, rebuilds: Iterable[Establishment], on: date) -> dict[int, float]:
    """Sand of each green since midwinter, by the green's id; two queries."""
    greens = [one.green for one in rebuilds]
    return diary.sand_kg_m2(greens, year_start(on, float(club.latitude_deg)), on)
