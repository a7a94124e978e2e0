"""What a green was found with in the last twelve months, what favours take-all, and its face each spring."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Analysis, AnalysisKind, Establishment, Green, ReadingSet
from greens.queries import analysis as analyses
from greens.queries import diary, greens
from greens.queries import settings as constants
from growin.agronomy.take_all import Known, favours, not_known
from growin.agronomy.works_around import WATCHED
from growin.queries import suits
from growin.queries.remembered import kept_while_unchanged

YEAR = timedelta(days=365)
FACE = "face_crossed"
#: What is seen of the health of grass and soil; pests and worms have the diary.
HEALTH = (
    "microdochium", "dollar_spot", "anthracnose", "take_all", "fairy_ring", "red_thread", "damping_off",
    "moss", "algae", "dry_patch", "black_layer",
)  # fmt: skip
LAYERS = {"none": "no layer to be seen", "thin": "a thin layer", "black": "a black or sour layer"}


@dataclass(frozen=True)
class Found:
    """One kind of finding in the last twelve months: how often, last on which day, on how much of the green.

    ``share_percent`` is that of the newest entry that names one, ``most_percent`` the largest; None where
    none does.
    """

    words: str
    count: int
    last: date
    share_percent: float | None
    most_percent: float | None


@dataclass(frozen=True)
class Face:
    """The turf/rootzone face in one year, by the newest set of it."""

    year: int
    on: date
    crossed: int
    cores: int
    layer: str


@dataclass(frozen=True)
class Watched:
    """What the section says; ``has_bent`` tells whether take-all has anything to live on."""

    since: date
    found: Sequence[Found]
    has_bent: bool
    favours: Sequence[str]
    not_known: Sequence[str]
    faces: Sequence[Face]


@kept_while_unchanged
def of_green(green: Green, on: date) -> Watched | None:
    """One green that was rebuilt; None for any other. Six queries."""
    rebuilt = greens.current_establishment(green)
    if rebuilt is None or rebuilt.established_on is None:
        return None
    sheets = [one for one in analyses.of_green(green) if rebuilt.established_on <= one.on <= on]
    known = known_of(rebuilt, on, sheets)
    settings = constants.in_force(green.club, on, green)
    return Watched(
        since=on - YEAR,
        found=findings(green, on),
        has_bent=known.has_bent,
        favours=favours(known, settings),
        not_known=not_known(known),
        faces=faces(green, rebuilt.established_on, on) if rebuilt.is_turf else (),
    )


def known_of(rebuilt: Establishment, on: date, sheets: Iterable[Analysis]) -> Known:
    """What the sheets since laying, of soil, water and sands, say of lime, oldest first; one query."""
    by_day = sorted(sheets, key=lambda one: (one.on, one.pk))
    soils = [one for one in by_day if one.kind == AnalysisKind.SOIL]
    waters = [one for one in by_day if one.kind == AnalysisKind.WATER]
    return Known(
        rebuilt.species,
        rebuilt.established_on,
        on,
        soil_ph=dated_values(soils, "pH"),
        carbonate_percent=dated_values(soils, "carbonate_percent"),
        sands=suits.limes_of(rebuilt),
        water=(waters[-1].on, waters[-1].values) if waters else None,
    )


def dated_values(sheets: Iterable[Analysis], figure: str) -> list[tuple[date, float]]:
    return [(one.on, one.values[figure]) for one in sheets if figure in one.values]


def findings(green: Green, on: date) -> list[Found]:
    """By kind, the newest first; one query."""
    rows = diary.on_green(diary.of(green.club), green).filter(kind="watch", on__gt=on - YEAR, on__lte=on)
    seen: dict[str, list[tuple[date, Mapping]]] = {}
    for day, details in rows.order_by("-on", "-pk").values_list("on", "details"):
        if details.get("what") in HEALTH:
            seen.setdefault(details["what"], []).append((day, details))
    return [found_of(what, some) for what, some in seen.items()]


def found_of(what: str, some: Sequence[tuple[date, Mapping]]) -> Found:
    shares = [details["share_percent"] for _, details in some if details.get("share_percent") is not None]
    newest, most = (shares[0], max(shares)) if shares else (None, None)
    return Found(WATCHED[what], len(some), some[0][0], newest, most)


def faces(green: Green, since: date, on: date) -> list[Face]:
    """The newest set of every year, the newest year first; one query."""
    rows = ReadingSet.objects.filter(green=green, taken_back_at=None, measure=FACE, on__range=(since, on))
    by_year: dict[int, Face] = {}
    for day, values, protocol in rows.order_by("-on", "-pk").values_list("on", "values", "protocol"):
        layer = LAYERS.get(protocol.get("layer"), "")
        by_year.setdefault(day.year, Face(day.year, day, sum(map(bool, values)), len(values), layer))
    return list(by_year.values())
