"""A season's sum close to its limit, or over it: nitrogen in the first season, sand since midwinter."""

from collections.abc import Iterator

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.feeding import season_band
from growin.agronomy.plain_words import amount
from growin.agronomy.season_limits import OVER, standing
from growin.evidence.occasions.look import Found, Look
from growin.evidence.occasions.words import digest_of, listed
from growin.queries.season_sums import in_first_season


def found(look: Look, rebuild: Establishment, before: dict | None) -> Found:
    """Told once when a sum comes close, and once more when it goes over."""
    sums = list(near(look, rebuild)) if look.is_laid(rebuild) else []
    states = {name: state for name, state, _, _ in sums}
    if not states or states == before:
        return Found(holds=bool(states), after=states)
    telling = Telling(
        kind=NoticeKind.CEILING,
        key=f"limits {rebuild.pk} {look.on} {digest_of(states)}",
        subject=f"{rebuild.green}: " + ", ".join(f"{name} {state} its limit" for name, state, _, _ in sums),
        text=listed(f"{name.capitalize()}: {said}" for name, _, said, _ in sums),
        place=look.page("green", rebuild.green),
        green=rebuild.green,
        presses=any(state == OVER for _, state, _, _ in sums),
    )
    return Found(telling, holds=True, after=states, is_new=look.has_news(before, states))


def near(look: Look, rebuild: Establishment) -> Iterator[tuple[str, str, str, float]]:
    """Name, state, sentence and sum of each that is close to its limit or over it."""
    settings = look.judged[rebuild.pk].settings
    for name, total, limit, unit, span in sums(look, rebuild, settings):
        state = standing(total, limit, settings["season.near_percent"])
        if state:
            yield name, state, f"{amount(total, unit)} {span}, of {amount(limit, unit)} at most.", total


def sums(look: Look, rebuild: Establishment, settings) -> Iterator[tuple[str, float, float, str, str]]:
    if in_first_season(rebuild, look.on):
        _, most = season_band(rebuild.kind, rebuild.species, settings)
        total = look.nitrogen_kg_ha.get(rebuild.pk, 0)
        yield "nitrogen", total, most, "kg N/ha", "in its first season"
    sand = look.sand_kg_m2.get(rebuild.green_id, 0)
    yield "sand", sand, settings["dressing.season_high_kg_m2"], "kg/m²", "since midwinter"
