"""Weather of a club: its days and its normals."""

from datetime import date, timedelta

from django.db.models import Count, F, FloatField, QuerySet, Sum

from greens.models import Club, Normal, WeatherDay
from greens.queries.spans import Span, within


def normals(club: Club) -> QuerySet[Normal]:
    return club.normals.order_by("month")


def normals_c(club: Club) -> tuple[float, ...]:
    """Twelve monthly means, January first; empty when the club has not entered them."""
    means = tuple(float(mean) for mean in normals(club).values_list("mean_c", flat=True))
    return means if len(means) == 12 else ()


def normals_as_initial(club: Club) -> dict:
    """The normals as a form's first values."""
    rows = list(normals(club))
    means = {f"mean_{row.month}": row.mean_c for row in rows}
    return means | {f"rain_{row.month}": row.rain_mm for row in rows}


def days(club: Club, first: date, last: date) -> QuerySet[WeatherDay]:
    """Days from first to last, both included, oldest first."""
    return club.weather_days.filter(on__range=(first, last)).order_by("on")


def day(club: Club, on: date) -> WeatherDay | None:
    return club.weather_days.filter(on=on).first()


def measured(club: Club, *spans: Span) -> QuerySet[WeatherDay]:
    """Days of some spans whose mean was measured."""
    rows = club.weather_days.filter(within("on", list(spans)), is_estimated=False, mean_c__isnull=False)
    return rows.order_by("on")


def means(club: Club, *spans: Span) -> dict[date, float]:
    """Measured means by day in some spans; estimated days are left out."""
    return {on: float(mean) for on, mean in measured(club, *spans).values_list("on", "mean_c")}


def digest(club: Club, first: date, last: date) -> tuple:
    """Other figures as soon as a mean of these days is another; one query."""
    weighed = Sum(F("mean_c") * F("pk"), output_field=FloatField())
    told = measured(club, (first, last)).order_by()
    return tuple(told.aggregate(Count("pk"), Sum("mean_c"), weighed=weighed).values())


def last_week(club: Club, as_of: date) -> QuerySet[WeatherDay]:
    """The seven days that end with ``as_of``."""
    return days(club, as_of - timedelta(days=6), as_of)


def last_days(club: Club, as_of: date, count: int = 30) -> list[tuple[date, WeatherDay | None]]:
    """The last days, newest first, each with its row or the gap that it is; one query."""
    kept = {row.on: row for row in days(club, as_of - timedelta(days=count - 1), as_of)}
    return [(on, kept.get(on)) for on in (as_of - timedelta(days=back) for back in range(count))]
