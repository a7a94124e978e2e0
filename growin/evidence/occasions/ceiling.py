"""A sum close to its limit, or over it: nitrogen, phosphorus and sand, as their own pages bound them."""

from collections.abc import Iterator

from greens.choices import NoticeKind
from greens.models import Establishment
from growin.agronomy.plain_words import amount
from growin.agronomy.season_limits import OVER
from growin.evidence.occasions.look import Found, Look, as_they_stand
from growin.evidence.occasions.words import listed

UNIT_OF = {"nitrogen": "kg N/ha", "phosphorus": "kg P/ha", "sand": "kg/m²"}


def found(look: Look, rebuild: Establishment, before: dict | None) -> Found:
    """Told once when a sum comes close, and once more when it goes over."""
    sums = list(near(look, rebuild)) if look.is_laid(rebuild) else []
    states = {name: state for name, state, _ in sums}
    return as_they_stand(
        look, rebuild, NoticeKind.CEILING, states, before,
        subject=", ".join(f"{name} {state} its limit" for name, state, _ in sums),
        text=listed(f"{name.capitalize()}: {said}" for name, _, said in sums),
        place=look.page("green", rebuild.green),
        presses=any(state == OVER for _, state, _ in sums),
    )  # fmt: skip


def near(look: Look, rebuild: Establishment) -> Iterator[tuple[str, str, str]]:
    """Name, state and sentence of each that is close to its limit or over it."""
    for name, budget in look.sums[rebuild.pk].items():
        if budget.stands:
            had, most = (amount(kept, UNIT_OF[name]) for kept in (budget.bound.total, budget.bound.most))
            yield name, budget.stands, f"{had} {budget.bound.words}, of {most} at most."
