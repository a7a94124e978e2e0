"""What each day asked for, what the rootzone of a green still holds, and what to give it.

The balance starts on the last reading of moisture, else at a rootzone that is assumed full so many
days back; a soaking on the way makes the assumption good. What had to be assumed is said.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from statistics import fmean

from greens.models import Club, Establishment, Green, WeatherDay
from greens.queries import greens, settings, water, weather
from growin.agronomy import day_water, rootzone_water
from growin.agronomy.plain_words import amount, counted, day
from growin.agronomy.rootzone_water import DayOfWater, Standing, Store
from growin.agronomy.water import gross_irrigation, water_volume
from growin.agronomy.weather_day import WEATHER
from growin.queries.remembered import kept_while_the_frame_stands, kept_while_unchanged

ONE_DAY = timedelta(days=1)
NO_WEATHER = "Not known: no day with its lowest and highest temperature was entered lately."
LAST_WEATHER = "Not known: the last day with its lowest and highest temperature is {}."


@dataclass(frozen=True)
class DayAsked:
    """One day of weather: reference evapotranspiration and the method; None without its extremes."""

    weather: WeatherDay
    asked: day_water.Asked | None

    @property
    def on(self) -> date:
        return self.weather.on


@dataclass(frozen=True)
class Need:
    """What one green needs this evening; ``now`` is None where the weather does not tell, and then
    ``last_weather`` is the last day that it was entered for, if ever."""

    establishment: Establishment
    store: Store
    now: Standing | None
    evenness_percent: float
    most_mm: float
    assumed: tuple[str, ...] = ()
    last_weather: date | None = None

    @property
    def green(self) -> Green:
        return self.establishment.green

    @property
    def is_due(self) -> bool:
        return self.now is not None and self.now.is_due

    @property
    def net_mm(self) -> float:
        """What the roots should get."""
        return rootzone_water.to_give_mm(self.now) if self.now else 0.0

    @property
    def gross_mm(self) -> float:
        """What to put on, so that the driest quarter gets enough."""
        return gross_irrigation(self.net_mm, self.evenness_percent)

    @property
    def goes(self) -> int:
        """In how many goes it is put on, an hour or more apart."""
        return ceil(self.gross_mm / self.most_mm)

    @property
    def volume_m3(self) -> float | None:
        return water_volume(self.gross_mm, self.green.area_m2) if self.green.area_m2 else None

    @property
    def words(self) -> str:
        """One line for the day's page: "Water 8.5 mm (3.8 m³ of water)", "enough for about 2 dry days"."""
        if self.now is None:
            return LAST_WEATHER.format(day(self.last_weather)) if self.last_weather else NO_WEATHER
        if self.is_due:
            volume = f" ({amount(self.volume_m3, 'm³ of water')})" if self.volume_m3 else ""
            goes = f" in {self.goes} goes" if self.goes > 1 else ""
            return f"Water {amount(self.gross_mm, 'mm')}{volume}{goes}"
        left = self.now.days_left
        return "Wet enough" if left is None else f"Enough for about {counted(left, 'dry days')}"

    @property
    def why(self) -> str:
        """The balance in one sentence."""
        if self.now is None:
            return ""
        full = f"full on {day(self.now.full_on)}" if self.now.full_on else "taken as full at the start"
        used = f"{amount(self.now.depletion_mm, 'mm')} are used"
        easy = f"roots take {amount(self.now.readily_mm, 'mm')} without stress"
        lately = f"{amount(self.now.asked_mm, 'mm')} a day lately"
        return f"{used}, {full}; {easy}; {lately}."


@dataclass(frozen=True)
class _Frame:
    """What the day's work leaves alone: constants, rain and what turf used, what each rootzone holds."""

    first: date
    settings: Mapping[int, Mapping[str, float]]
    rain_mm: Mapping[date, float]
    used_mm: Mapping[int, Mapping[date, float]]
    capillary: Mapping[int, float]
    turf_mm: Mapping[int, float]


@dataclass(frozen=True)
class _Known:
    """What the record knows of all greens, read once."""

    frame: _Frame
    waterings: Sequence[tuple[int, date, float | None]]
    means: Mapping[tuple[int, str], tuple[date, float]]
    evenness: Mapping[int, float]


def place_of(club: Club) -> day_water.Place:
    return day_water.Place(float(club.latitude_deg), float(club.altitude_m))


def asked_by_day(club: Club, first: date, last: date) -> list[DayAsked]:
    """Reference evapotranspiration of each day of weather, newest first; two queries."""
    constants = settings.in_force(club, last)
    rows = weather.days(club, first, last)
    return [DayAsked(row, asked_of(row, place_of(club), constants)) for row in rows][::-1]


def asked_of(row: WeatherDay, place: day_water.Place, constants: Mapping) -> day_water.Asked | None:
    figures = {key: getattr(row, key) for key in WEATHER}
    return day_water.reference_of_day(figures, row.on, place, constants)


def need(green: Green, on: date) -> Need | None:
    """What one green needs on the evening of a day; None while nothing is laid or sown."""
    return next((one for one in of_club(green.club, on) if one.establishment.green_id == green.pk), None)


def due(club: Club, on: date) -> list[Need]:
    """Those that want water this evening."""
    return [one for one in of_club(club, on) if one.is_due]


def needs(club: Club, on: date) -> list[Need]:
    """What every green with turf or seed needs, those due first."""
    return sorted(of_club(club, on), key=lambda one: (not one.is_due, one.green.position, one.green.name))


@kept_while_unchanged
def of_club(club: Club, on: date) -> list[Need]:
    """What every green with turf or seed needs; a fixed number of queries."""
    rebuilt = greens.current_establishments(club).values()
    laid = [one for one in rebuilt if one.established_on and one.established_on <= on]
    if not laid:
        return []
    frame = frame_of(club, laid, on)
    known = _Known(
        frame=frame,
        waterings=water.waterings(laid, frame.first, on),
        means=water.newest_means(laid, on),
        evenness=water.evenness_percent(laid, on),
    )
    return [_need(one, on, known) for one in laid]


@kept_while_the_frame_stands
def frame_of(club: Club, laid: Sequence[Establishment], on: date) -> _Frame:
    constants = settings.in_force_by_green(club, on, [one.green_id for one in laid])
    back = max(one["water.look_back_days"] for one in constants.values())
    first = on - timedelta(days=int(back))
    days = list(weather.days(club, first, on))
    return _Frame(
        first=first,
        settings=constants,
        rain_mm={row.on: float(row.rain_mm) for row in days if row.rain_mm},
        used_mm=_used_by_green(days, constants, place_of(club)),
        capillary=water.capillary_percent(laid),
        turf_mm=water.turf_mm(laid),
    )


def _need(row: Establishment, on: date, known: _Known) -> Need:
    constants = known.frame.settings[row.green_id]
    store, assumed = _store(row, on, known, constants)
    evenness = known.evenness.get(row.green_id, constants["water.lower_quarter_percent"])
    most_mm, used = constants["water.most_at_once_mm"], known.frame.used_mm[row.green_id]
    last = max(used, default=None)
    if last is None or (on - last).days > constants["water.stale_days"]:
        return Need(row, store, None, evenness, most_mm, assumed, last)
    first, start_mm = _start(row, on, known, store, int(constants["water.look_back_days"]))
    days = _days(row, first, on, known, used)
    now = rootzone_water.standing(days, store, constants["water.depletion_share"], start_mm)
    return Need(row, store, now, evenness, most_mm, (*assumed, *_gaps(row, now, known)), last)


def _store(row: Establishment, on: date, known: _Known, constants: Mapping) -> tuple[Store, tuple[str, ...]]:
    """What the rootzone holds, and what of it is assumed."""
    roots_mm, assumed = _roots_mm(row, on, known, constants)
    capillary = known.frame.capillary.get(row.pk)
    store = rootzone_water.store_of(constants, capillary, roots_mm)
    held = f"Rootzone taken to hold {amount(store.field_capacity_percent, '%')}: no sheet on record."
    return store, (*(() if capillary else (held,)), *assumed)


def _roots_mm(
    row: Establishment, on: date, known: _Known, constants: Mapping
) -> tuple[float, tuple[str, ...]]:
    """Depth of the roots below the surface, and a sentence where nobody has read it."""
    read = known.means.get((row.pk, water.ROOTS))
    if read:
        return max(read[1] + known.frame.turf_mm.get(row.pk, 0.0), constants["water.fresh_root_depth_mm"]), ()
    is_fresh = (on - row.established_on).days < constants["water.fresh_days"]
    taken = constants["water.fresh_root_depth_mm" if is_fresh else "water.root_depth_mm"]
    return taken, (f"Roots taken as {amount(taken, 'mm')} deep: none read yet.",)


def _start(row: Establishment, on: date, known: _Known, store: Store, back: int) -> tuple[date, float | None]:
    """First day of the balance, and the depletion on its morning where moisture was read."""
    first = max(on - timedelta(days=back - 1), row.established_on)
    read = known.means.get((row.pk, water.MOISTURE))
    if read and first <= read[0] <= on:
        return read[0], store.depletion_mm(read[1])
    return first, None


def _used_by_green(
    days: Iterable[WeatherDay], constants: Mapping[int, Mapping[str, float]], place: day_water.Place
) -> dict[int, dict[date, float]]:
    """Water that turf with all it wants used on each day whose weather tells, mm, by the green's id; reckoned
    once for all greens with the same constants."""
    said = {green: tuple(sorted(one.items())) for green, one in constants.items()}
    used = {one: _used(days, dict(one), place) for one in set(said.values())}
    return {green: used[one] for green, one in said.items()}


def _used(
    days: Iterable[WeatherDay], constants: Mapping[str, float], place: day_water.Place
) -> dict[date, float]:
    asked = {one.on: asked_of(one, place, constants) for one in days}
    return {on: day_water.turf_water_mm(one.et0_mm, constants) for on, one in asked.items() if one}


def _days(
    row: Establishment, first: date, until: date, known: _Known, used: Mapping[date, float]
) -> list[DayOfWater]:
    """Every day from the first; one without weather uses the mean of the others."""
    usual, came = fmean(used.values()), _by_day(row, known)
    span = (first + n * ONE_DAY for n in range((until - first).days + 1))
    return [
        DayOfWater(
            on,
            known.frame.rain_mm.get(on, 0.0),
            came.get(on, 0.0),
            used.get(on, usual),
            is_estimated=on not in used,
        )
        for on in span
    ]


def _by_day(row: Establishment, known: _Known) -> dict[date, float]:
    """Irrigation of one green, mm by day."""
    came: dict[date, float] = {}
    for green, on, depth_mm in known.waterings:
        if green == row.green_id and depth_mm:
            came[on] = came.get(on, 0.0) + float(depth_mm)
    return came


def _gaps(row: Establishment, now: Standing, known: _Known) -> list[str]:
    """What the balance did not know, in sentences."""
    unmeasured = sum(green == row.green_id and not depth for green, _, depth in known.waterings)
    said = (
        (
            now.estimated_days,
            f"{counted(now.estimated_days, 'days')} without weather taken as usual and dry.",
        ),
        (unmeasured, f"{counted(unmeasured, 'waterings')} without a depth not counted."),
    )
    return [sentence for count, sentence in said if count]
