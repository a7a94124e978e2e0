"""The club, its greens and their rebuilds as programs read them."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Annotated

from greens import models as kept
from greens.queries import greens
from growin.interface.schema import OneOf
from growin.models import Pattern
from growin.queries.decision import PlayState, play_states
from growin.queries.listed import Piece, by_number


def number(value: Decimal | float | None) -> float | None:
    """A decimal of a column as a JSON number."""
    return None if value is None else float(value)


@dataclass(frozen=True)
class Club:
    """The club that the token is of. Every figure of this interface is metric, whatever its pages show."""

    slug: str
    name: str
    time_zone: str
    today: Annotated[date, "The club's own day, by which all days here are told."]
    latitude_deg: float
    altitude_m: int


@dataclass(frozen=True)
class Green:
    """A putting green: the place."""

    id: int
    name: str
    number_on_card: int
    area_m2: float | None
    distance_to_water_m: float | None
    rebuild_id: Annotated[int | None, "Its newest rebuild."]
    pattern: Annotated[
        str | None, OneOf((*Pattern.values, None)), "Of play, as decided for today; null before any decision."
    ]
    is_shut_today: Annotated[bool, "Shut by frost, thaw or standing water, whatever was decided."]


@dataclass(frozen=True)
class Rebuild:
    """One rebuild of a green; readings, programmes and verdicts hang on it."""

    id: int
    green_id: int
    number: Annotated[int, "1 for the first on record."]
    kind: Annotated[str, "How the surface was established, such as turf_supplied or seed."]
    species: str
    works_started_on: date
    established_on: Annotated[date | None, "Day of laying or sowing; null while it is being built."]
    summer_height_mm: float | None
    others_height_mm: Annotated[float | None, "Height of cut of the club's other greens."]
    maintenance_ends_on: date | None
    seed_rate_g_m2: float | None


def club(of: kept.Club) -> Club:
    return Club(
        slug=of.slug,
        name=of.name,
        time_zone=of.time_zone,
        today=of.local_today(),
        latitude_deg=float(of.latitude_deg),
        altitude_m=of.altitude_m,
    )


def greens_of(of: kept.Club, cursor=None, limit=None) -> Piece:
    piece = by_number(greens.of(of), cursor, limit)
    rebuilt, plays = greens.current_establishments(of), play_states(of, of.local_today())
    told = []
    for row in piece.rows:
        newest = rebuilt.get(row.pk)
        told.append(green(row, newest, plays.get(newest.pk) if newest else None))
    return Piece(told, piece.next)


def green(row: kept.Green, newest: kept.Establishment | None, play: PlayState | None) -> Green:
    return Green(
        id=row.pk,
        name=row.name,
        number_on_card=row.position,
        area_m2=row.area_m2,
        distance_to_water_m=number(row.distance_to_water_m),
        rebuild_id=newest and newest.pk,
        pattern=play.decision.pattern if play and play.decision else None,
        is_shut_today=bool(play and play.is_shut_today),
    )


def rebuilds_of(of: kept.Club, green: kept.Green | None = None, cursor=None, limit=None) -> Piece:
    piece = by_number(greens.establishments_of(of, green), cursor, limit)
    return Piece([rebuild(row) for row in piece.rows], piece.next)


def rebuild(row: kept.Establishment) -> Rebuild:
    return Rebuild(
        id=row.pk,
        green_id=row.green_id,
        number=row.number,
        kind=row.kind,
        species=row.species,
        works_started_on=row.works_started_on,
        established_on=row.established_on,
        summer_height_mm=number(row.summer_height_mm),
        others_height_mm=number(row.others_height_mm),
        maintenance_ends_on=row.maintenance_ends_on,
        seed_rate_g_m2=number(row.seed_rate_g_m2),
    )
