"""The forecast of a rebuild from its record: what is asked of the ground floor, and what it knew."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from greens.models import Establishment
from greens.queries import weather
from growin.agronomy.climate import Climate
from growin.agronomy.facts import HeightOnDay, ReadingFacts
from growin.agronomy.forecast import Forecast, forecast
from growin.agronomy.height_bar import heights_until
from growin.agronomy.programme import GreenFacts
from growin.evidence.gathered import gather
from growin.queries import facts

#: So much of the club's own weather is looked back on (our judgement).
LONGEST_RECORD = timedelta(days=20 * 366)


@dataclass(frozen=True)
class Known:
    """What a forecast of one rebuild on a day is made from."""

    facts: GreenFacts
    climate: Climate
    readings: tuple[ReadingFacts, ...]
    heights: tuple[HeightOnDay, ...]
    settings: Mapping[str, float]
    proposed: date | None
    as_of: date

    @property
    def in_short(self) -> dict:
        """What it rests on, to tell the next one from it, and a digest of the whole."""
        laid = self.facts.established_on
        return {
            "readings": len(self.readings),
            "cuts": len(self.heights),
            "weather": sum(day >= laid for day in self.climate.daily),
            "facts": digest_of(self.facts),
            "settings": digest_of(sorted(self.settings.items())),
            "proposed": self.proposed and self.proposed.isoformat(),
            "whole": digest_of(self),
        }


def digest_of(values) -> str:
    return hashlib.sha256(repr(values).encode()).hexdigest()[:16]


def known_on(establishment: Establishment, on: date) -> Known:
    """The record of a rebuild as it stands for a day; nothing of :func:`facts.missing` may be missing.

    Raises
    ------
    ImpossibleValue
        Where the record holds a value that cannot be.
    """
    club = establishment.green.club
    gathered = gather(club, [establishment], on)[establishment.pk]
    measured = weather.means(club, (on - LONGEST_RECORD, on))
    return Known(
        facts=facts.facts_of(establishment, on),
        climate=Climate(weather.normals_c(club), float(club.day_spread_c), measured),
        readings=gathered.evidence.readings,
        heights=tuple(heights_until(gathered.evidence, on)),
        settings=gathered.settings,
        proposed=gathered.evidence.proposed_on,
        as_of=on,
    )


def worked_out(known: Known) -> Forecast:
    """The forecast itself.

    Raises
    ------
    ImpossibleValue
        For a reading that cannot be, such as one of turf before it was laid.
    """
    return forecast(
        known.facts,
        known.climate,
        known.readings,
        known.heights,
        known.as_of,
        known.settings,
        proposed=known.proposed,
        bench_counts=False,
    )
