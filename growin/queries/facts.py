"""The facts that a programme is drawn from, read out of a green's record."""

from collections.abc import Mapping
from datetime import date

from greens.choices import MaterialKind
from greens.models import Club, Establishment
from greens.queries import build, gate, record, settings, weather
from greens.queries.spans import Span
from growin.agronomy.climate import Climate
from growin.agronomy.construction import risks_of
from growin.agronomy.programme import GreenFacts
from growin.agronomy.programme.done import days_that_tell


def missing(establishment: Establishment) -> list[str]:
    """What must still be entered before a programme can be drawn, one sentence each."""
    sentences = (
        (establishment.green.area_m2, "Enter the area of the green: every amount hangs on it."),
        (establishment.established_on, "Enter the day of laying or sowing: every date hangs on it."),
        (weather.normals_c(establishment.green.club), "Enter the club's twelve monthly normals."),
    )
    return [sentence for value, sentence in sentences if not value]


def facts_of(establishment: Establishment, on: date) -> GreenFacts:
    """One green as its record has it, its build judged by the limits in force on that day.

    Raises
    ------
    ImpossibleValue
        Where the record holds a value that cannot be.
    """
    green = establishment.green
    return GreenFacts(
        area_m2=green.area_m2,
        establishment=establishment.kind,
        species=establishment.species,
        established_on=establishment.established_on,
        latitude_deg=float(green.club.latitude_deg),
        summer_height_mm=as_figure(establishment.summer_height_mm),
        others_height_mm=as_figure(establishment.others_height_mm),
        adviser_agrees=establishment.pk in gate.agreed(green.club, [establishment], on),
        risks=risks(establishment, on),
        distance_to_water_m=as_figure(green.distance_to_water_m),
        bulk_density_t_m3=bulk_density_t_m3(green.club),
        **feeding_rules(green.club),
    )


def feeding_rules(club: Club) -> dict:
    """The club's time without feeding and its limits of a year, by the names of the facts."""
    return {
        "closed_from": club.closed_from,
        "closed_until": club.closed_until,
        "year_limit_n_kg_ha": as_figure(club.year_limit_n_kg_ha),
        "year_limit_p_kg_ha": as_figure(club.year_limit_p_kg_ha),
    }


def as_figure(value) -> float | None:
    return None if value is None else float(value)


def risks(establishment: Establishment, on: date) -> tuple[str, ...]:
    """What the record of the building says is out, as the programme carries it."""
    built = record.with_build(establishment.green.club, establishment.pk)
    return risks_of(build.judged(built, on).rows)


def bulk_density_t_m3(club: Club, in_force: Mapping[str, float] | None = None) -> float:
    """Of the club's dressing sand by its newest laboratory sheet, else as the club has set it.

    ``in_force`` are the club's constants of today, where the caller has read them.
    """
    sands = club.materials.filter(kind=MaterialKind.SAND, bulk_density_t_m3__isnull=False)
    newest = sands.order_by("-tested_on", "-pk").values_list("bulk_density_t_m3", flat=True).first()
    if newest is not None:
        return float(newest)
    constants = in_force or settings.in_force(club, club.local_today())
    return constants["sand.bulk_density_t_m3"]


def days_measured(establishment: Establishment, on: date) -> list[Span]:
    """The days whose weather a drawing asks for, from the start of the works on."""
    begun = establishment.works_started_on
    return [(max(first, begun), last) for first, last in days_that_tell(establishment.established_on, on)]


def climate_of(establishment: Establishment, on: date) -> Climate:
    """The club's normals, and the days measured since the works began, as far as they tell yet."""
    club = establishment.green.club
    measured = weather.means(club, *days_measured(establishment, on))
    return Climate(weather.normals_c(club), float(club.day_spread_c), measured)
