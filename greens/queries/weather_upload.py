"""Files of weather of a club: those that were kept, and what one that waits would change."""

from collections import Counter
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from itertools import islice

from django.db.models import QuerySet

from greens.choices import Units
from greens.models import Club, WeatherDay, WeatherUpload
from greens.queries import weather
from greens.shelf import Place
from greens.validators.weather_file import WeatherTable, taken_up
from growin.agronomy import weather_merge as merge
from growin.agronomy.climate import Climate
from growin.agronomy.weather_cells import DAY_FIRST, MONTH_FIRST
from growin.agronomy.weather_columns import METRIC, US, Column
from growin.agronomy.weather_day import WEATHER
from growin.agronomy.weather_table import Bounds, Days, Wrong, read_days

FIRST_DAY = date(1950, 1, 1)
WRONG_SHOWN, DIFFERENT_SHOWN, SAMPLED, GAPS_SHOWN = 20, 8, 3, 12


def of(club: Club) -> QuerySet[WeatherUpload]:
    return club.weather_uploads.defer("before", "by_hand_days").select_related("logged_by", "job")


def one(club: Club, pk: int) -> WeatherUpload:
    return of(club).get(pk=pk)


def kept(club: Club) -> QuerySet[WeatherUpload]:
    """Those whose days were kept, whether or not that was undone since."""
    return of(club).exclude(imported_at=None)


def remembered(club: Club, headers: list[str]) -> WeatherUpload | None:
    """The last file with these headers whose days were kept: its columns are read in the same way."""
    return kept(club).filter(headers=headers).first()


def place_of(upload: WeatherUpload) -> Place:
    """Where its table lies until it is kept."""
    return Place.of_club(upload.club_id, f"weather-{upload.key}.csv")


def table_of(upload: WeatherUpload) -> WeatherTable:
    """The table as it was laid by. Raises FileNotFoundError when it was kept or cleared away."""
    return taken_up(place_of(upload).read_bytes())


def first_rows(upload: WeatherUpload, count: int) -> list[list[str]]:
    """The first rows of the table as they stand in the file; none when it is gone."""
    try:
        return table_of(upload).texts.head(count).to_numpy().tolist()
    except FileNotFoundError:
        return []


def columns_of(upload: WeatherUpload) -> dict[str, Column]:
    return {key: Column(*column) for key, column in upload.columns.items()}


def usual_units(club: Club) -> int:
    return US if club.units == Units.US else METRIC


def bounds(club: Club) -> Bounds:
    normals_c = weather.normals_c(club)
    climate = Climate(normals_c, float(club.day_spread_c)) if normals_c else None
    return Bounds(FIRST_DAY, club.local_today(), climate)


def days_of(upload: WeatherUpload, table: WeatherTable) -> Days:
    """What the table says. Raises NotDaily."""
    usual = MONTH_FIRST if upload.club.units == Units.US else DAY_FIRST
    return read_days(
        table.texts,
        columns_of(upload),
        bounds(upload.club),
        usual_order=usual,
        order=upload.order or None,
        is_unit_sure=upload.is_unit_sure,
    )


def kept_days(club: Club, first: date, last: date) -> dict[date, merge.Kept]:
    """Days of the record by day, as plain figures."""
    rows = weather.days(club, first, last)
    return {row.on: merge.Kept(figures_of(row), row.is_by_hand, row.is_estimated) for row in rows.iterator()}


def figures_of(row: WeatherDay) -> dict[str, float]:
    figures = {key: getattr(row, key) for key in WEATHER}
    return {key: float(value) for key, value in figures.items() if value is not None}


@dataclass(frozen=True)
class Checked:
    """A file that waits: what it says, and every day it meets in the record."""

    upload: WeatherUpload
    headers: list[str]
    days: Days
    meetings: list[merge.Meeting]

    @cached_property
    def counts(self) -> dict[str, int]:
        """How many days are new, the same, different …, with a nought for what there is none of."""
        kinds = (merge.NEW, merge.SAME, merge.FILLED, merge.SETTLED, merge.DIFFERENT, merge.DIFFERENT_BY_HAND)
        counted = Counter(meeting.kind for meeting in self.meetings)
        return {kind.replace(" ", "_"): counted[kind] for kind in (*kinds, merge.LEFT)}

    @property
    def by_hand_days(self) -> list[date]:
        return [one.on for one in self.meetings if one.kind == merge.DIFFERENT_BY_HAND]

    @property
    def different(self) -> list[merge.Meeting]:
        """The first days that differ from those in the record, those by hand before the others."""
        by_hand = (one for one in self.meetings if one.kind == merge.DIFFERENT_BY_HAND)
        others = (one for one in self.meetings if one.kind == merge.DIFFERENT)
        return list(islice((*by_hand, *others), DIFFERENT_SHOWN))

    @property
    def wrong(self) -> tuple[Wrong, ...]:
        return self.days.wrong[:WRONG_SHOWN]

    @property
    def different_in_all(self) -> int:
        return self.counts["different"] + self.counts["different_by_hand"]

    @property
    def read_as(self) -> list[tuple[str, str]]:
        """Header and quantity of every column of figures, in the order of the file."""
        columns = sorted(columns_of(self.upload).items(), key=lambda one: one[1].place)
        return [(self.headers[column.place], key) for key, column in columns if key in WEATHER]

    @property
    def sample(self) -> list[tuple[date, dict]]:
        """The first and last days with their figures."""
        days = list(self.days.figures.items())
        return days if len(days) <= 2 * SAMPLED else [*days[:SAMPLED], *days[-SAMPLED:]]

    @cached_property
    def gaps(self) -> list[tuple[date, date]]:
        return self.days.gaps

    @property
    def days_missing(self) -> int:
        return sum((last - first).days + 1 for first, last in self.gaps)

    @property
    def more_gaps(self) -> int:
        return len(self.gaps) - GAPS_SHOWN

    @property
    def changes_nothing(self) -> bool:
        return all(one.kind in (merge.SAME, merge.LEFT) for one in self.meetings)


def checked(upload: WeatherUpload) -> Checked:
    """What would happen were the file kept. Raises NotDaily, FileNotFoundError."""
    table = table_of(upload)
    days = days_of(upload, table)
    met = []
    if days.figures:
        there = kept_days(upload.club, days.first, days.last)
        met = list(merge.meetings(days.figures, there, upload.is_estimated))
    return Checked(upload, table.headers, days, met)
