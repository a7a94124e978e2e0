"""Weather of a club: its days and its normals."""

from datetime import date, timedelta

from django.db.models import QuerySet

from greens.models import Club, Normal, WeatherDay


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


def means(club: Club, first: date, last: date) -> dict[date, float]:
    """Measured means by day; estimated days are left out."""
    rows = days(club, first, last).filter(is_estimated=False, mean_c__isnull=False)
    return {on: float(mean) for on, mean in rows.values_list("on", "mean_c")}


def last_week(club: Club, as_of: date) -> QuerySet[WeatherDay]:
    """The seven days that end with ``as_of``."""
    return days(club, as_of - timedelta(days=6), as_of)


def last_days(club: Club, as_of: date, count: int = 30) -> list[tuple[date, WeatherDay | None]]:
    """The last days, newest first, each with its row or the gap that it is; one query."""
    kept = {row.on: row for row in days(club, as_of - timedelta(days=count - 1), as_of)}
    return [(on, kept.get(on)) for on in (as_of - timedelta(days=back) for back in range(count))]
