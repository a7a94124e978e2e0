"""What the newest soil tests of a green ask for, and where its pH goes."""

from dataclasses import dataclass
from datetime import date

from greens.models import Analysis, AnalysisKind, Green
from greens.queries import analysis as analyses
from greens.queries import greens
from greens.queries import settings as constants
from growin.agronomy.analysis_table import Asked, asked_by, nitrogen_of_a_year
from growin.agronomy.season_nutrition import in_first_season
from growin.agronomy.trend import Trend, trend


@dataclass(frozen=True)
class Sheets:
    """The sheets of a green, the newest first; what the newest of soil ``asks`` for beside ``n_kg_ha``."""

    rows: list[Analysis]
    newest: Analysis | None
    asks: list[Asked]
    n_kg_ha: float | None
    ph: Trend | None


def of_green(green: Green, on: date) -> Sheets:
    """Four queries."""
    rows = list(analyses.of_green(green))
    soils = [one for one in rows if one.kind == AnalysisKind.SOIL]
    newest = soils[0] if soils else None
    n_kg_ha = nitrogen(green, on)
    asks = []
    if newest and n_kg_ha is not None:
        settings = constants.in_force(green.club, on, green)
        asks = asked_by(newest.values, newest.extractant, newest.depth_mm, n_kg_ha, settings)
    ph = trend([(one.on, one.values["pH"]) for one in soils if "pH" in one.values])
    return Sheets(rows, newest, asks, n_kg_ha, ph)


def nitrogen(green: Green, on: date) -> float | None:
    """What the green will have in nitrogen this year, by the middle of its band; None without a rebuild."""
    rebuilt = greens.current_establishment(green)
    if rebuilt is None:
        return None
    settings = constants.in_force(green.club, on, green)
    is_first = in_first_season(rebuilt.established_on or on, on)
    return nitrogen_of_a_year(rebuilt.kind, rebuilt.species, is_first, settings)
