"""What the adviser has said of the shorter gate for turf laid in growth."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from greens.models import Advice, Club, Establishment, Green
from greens.queries import greens, settings
from growin.agronomy.gates import AGREED, may_be_shorter


@dataclass(frozen=True)
class ShorterGate:
    """The shorter gate that an adviser may agree to, as it stands on a day."""

    laid_on: date
    weeks: float
    is_agreed: bool

    @property
    def agrees(self) -> str:
        return f"I agree to the shorter gate of {self.weeks:g} weeks"

    @property
    def no_longer(self) -> str:
        return f"I no longer agree to the shorter gate of {self.weeks:g} weeks"

    @property
    def meaning(self) -> str:
        return "For this turf, laid in growth. Every other bar must still be met."


def shorter_gate(green: Green, on: date) -> ShorterGate | None:
    """What there is to agree to on the newest rebuild; None where the turf was not laid in growth."""
    rebuilt = greens.current_establishment(green)
    if rebuilt is None or not _has_shorter_gate(green.club, rebuilt):
        return None
    weeks = settings.in_force(green.club, on, green)[AGREED]
    return ShorterGate(rebuilt.established_on, weeks, rebuilt.pk in agreed(green.club, [rebuilt], on))


def agreed(club: Club, establishments: Iterable[Establishment], as_of: date) -> set[int]:
    """Ids of the rebuilds whose newest word of the adviser on the gate is yes; at most one query.

    Only what was said since the green was laid counts, up to and with that day.
    """
    rebuilt = [one for one in establishments if _has_shorter_gate(club, one)]
    rows = Advice.objects.filter(
        green__in=[one.green_id for one in rebuilt], on__lte=as_of, agrees_to_shorter_gate__isnull=False
    ).order_by("on", "pk")
    said = list(rows.values_list("green_id", "on", "agrees_to_shorter_gate"))
    return {one.pk for one in rebuilt if _newest(said, one)}


def _has_shorter_gate(club: Club, one: Establishment) -> bool:
    laid_on = one.established_on
    return laid_on is not None and may_be_shorter(one.kind, laid_on, float(club.latitude_deg))


def _newest(said: list[tuple[int, date, bool]], one: Establishment) -> bool:
    words = [yes for green, on, yes in said if green == one.green_id and on >= one.established_on]
    return bool(words) and words[-1]
