"""How honest the forecast is, on greens that grow in otherwise than it believes.

``python -m tests.bench.calibration [greens [seed [file]]]`` prints and saves coverage of the 80 %
interval, interval score, median width with and without readings, and the Brier score of the
chance by a day beside that of "laying date plus the published duration with its spread".
"""

import json
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from statistics import NormalDist, fmean, median

from growin.agronomy.forecast import Forecast, forecast
from growin.agronomy.settings_table import default_values
from tests.bench.other_greens import OtherGreen, other_greens

DAY = timedelta(days=1)
GREENS, SEED = 600, 20260416
SMALLER = {"forecast.weather.paths": 150, "forecast.weather.draws": 200, "forecast.fit.draws": 4000}
STAGES = ("day one", "half-way", "last reading")
HORIZON = 1201
#: Published durations as days from laying (mean and spread), or as a day of spring (turf of autumn).
PUBLISHED = {
    "turf in growth": (51, 9 / 1.2816),  # USGA Green Section 2018: about half of 12–16 weeks
    "bent seed": (102, 18 / 1.2816),  # USGA Green Section 2008, 2018, 2019: 84–120 days
    "fescue seed": (548, 180 / 1.2816),  # common practice: 12–24 months, about 18
}
SPRING_DAY, SPRING_SPREAD = (4, 22), 8 / 1.2816  # BIGGA 2004, trade press: mid to late April


@dataclass(frozen=True)
class Scored:
    """One forecast beside what happened: days from laying, ``None`` beyond the horizon is the horizon."""

    kind: str
    stage: str
    p10: int
    p90: int
    opened: int
    width_without: int
    brier: tuple[float, ...]
    brier_published: tuple[float, ...]

    @property
    def covered(self) -> bool:
        return self.p10 <= self.opened <= self.p90

    @property
    def width(self) -> int:
        return self.p90 - self.p10

    @property
    def interval_score(self) -> float:
        """Width, and ten days for every day outside (Gneiting & Raftery 2007, 80 % interval)."""
        outside = max(self.p10 - self.opened, self.opened - self.p90, 0)
        return self.width + 2 / 0.2 * outside


def stage_days(green: OtherGreen) -> dict[str, date]:
    """Laying; the set nearest to half-way; the last set before the one it opened on."""
    laid = green.facts.established_on
    half = laid + (green.opened_on - laid) / 2
    sets = green.sets
    if not sets:
        return {"day one": laid}
    return {
        "day one": laid,
        "half-way": min(sets, key=lambda one: abs((one - half).days)),
        "last reading": sets[-1],
    }


def scored(green: OtherGreen, stage: str, as_of: date, settings: dict) -> Scored:
    laid = green.facts.established_on
    told = _forecast(green, as_of, settings, with_readings=True)
    without = _forecast(green, as_of, settings, with_readings=False) if stage != "day one" else told
    days = [_days(laid, one) for one in (told.p10, told.p90)]
    asks = _asked(green, as_of)
    return Scored(
        green.kind,
        stage,
        *days,
        (green.opened_on - laid).days,
        _days(laid, without.p90) - _days(laid, without.p10),
        tuple((told.chance_by(one) - (green.opened_on <= one)) ** 2 for one in asks),
        tuple((published_chance(green, one) - (green.opened_on <= one)) ** 2 for one in asks),
    )


def _forecast(green: OtherGreen, as_of: date, settings: dict, with_readings: bool) -> Forecast:
    readings = green.readings if with_readings else ()
    heights = green.heights if with_readings else ()
    return forecast(green.facts, green.climate, readings, heights, as_of, settings)


def _days(laid: date, day: date | None) -> int:
    return HORIZON if day is None else (day - laid).days


def _asked(green: OtherGreen, as_of: date) -> list[date]:
    """Days a committee might propose: about the published day, none in the past."""
    likely = published_day(green)
    return [max(likely + weeks * 7 * DAY, as_of + DAY) for weeks in (-4, -2, 0, 2, 4, 8)]


def published_day(green: OtherGreen) -> date:
    laid = green.facts.established_on
    if green.kind != "autumn turf":
        return laid + round(PUBLISHED[green.kind][0]) * DAY
    month, day = SPRING_DAY
    month = month if green.facts.latitude_deg > 0 else month + 6
    this_year = date(laid.year, month, day)
    return this_year if this_year > laid else date(laid.year + 1, month, day)


def published_chance(green: OtherGreen, by: date) -> float:
    """Chance by a day if the published duration were all that is known."""
    spread = SPRING_SPREAD if green.kind == "autumn turf" else PUBLISHED[green.kind][1]
    return NormalDist(0, spread).cdf((by - published_day(green)).days + 0.5)


def score(greens: Iterable[OtherGreen], settings: dict) -> list[Scored]:
    return [
        scored(green, stage, as_of, settings)
        for green in greens
        for stage, as_of in stage_days(green).items()
    ]


def summary(all_scored: list[Scored]) -> dict:
    """Figures by stage, and by stage and kind."""
    kinds = sorted({one.kind for one in all_scored})
    return {
        stage: _figures([one for one in all_scored if one.stage == stage])
        | {
            "by kind": {
                kind: _figures([one for one in all_scored if (one.stage, one.kind) == (stage, kind)])
                for kind in kinds
            }
        }
        for stage in STAGES
    }


def _figures(some: list[Scored]) -> dict:
    return {
        "greens": len(some),
        "coverage": round(fmean(one.covered for one in some), 3),
        "too late": round(fmean(one.opened < one.p10 for one in some), 3),
        "too early": round(fmean(one.opened > one.p90 for one in some), 3),
        "interval score, days": round(fmean(one.interval_score for one in some), 1),
        "median width, days": median(one.width for one in some),
        "median width without readings, days": median(one.width_without for one in some),
        "Brier": round(fmean(value for one in some for value in one.brier), 4),
        "Brier of published": round(fmean(value for one in some for value in one.brier_published), 4),
    }


def run(count: int = GREENS, seed: int = SEED) -> dict:
    settings = default_values() | SMALLER
    return summary(score(other_greens(count, seed), settings))


def main(words: list[str]) -> None:
    count = int(words[0]) if words else GREENS
    seed = int(words[1]) if len(words) > 1 else SEED
    told = json.dumps({"greens": count, "seed": seed, "stages": run(count, seed)}, indent=2)
    print(told)
    if len(words) > 2:
        Path(words[2]).write_text(told + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
