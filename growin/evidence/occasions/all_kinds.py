"""All kinds on all greens of a look: what is new, what holds no more, what to know next time."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from growin.evidence.occasions import (
    ceiling,
    criterion,
    defect,
    note,
    opening,
    play,
    readings,
    recheck,
    steps,
    stock,
    weather,
)
from growin.evidence.occasions.look import Look
from growin.evidence.occasions.opening import Planned

#: What is found on each rebuild, by its kind.
ON_A_GREEN = {
    NoticeKind.PLAY: play.found,
    NoticeKind.CEILING: ceiling.found,
    NoticeKind.RECHECK: recheck.found,
    NoticeKind.STEPS: steps.found,
    NoticeKind.READINGS: readings.found,
    NoticeKind.CRITERION: criterion.found,
    NoticeKind.DEFECT: defect.found,
    NoticeKind.NOTE: note.found,
}
#: Kinds that tell how something stands: what was told lapses when it stands so no more.
STANDING = (
    NoticeKind.PLAY,
    NoticeKind.CEILING,
    NoticeKind.RECHECK,
    NoticeKind.STEPS,
    NoticeKind.READINGS,
    NoticeKind.CRITERION,
    NoticeKind.DEFECT,
)


@dataclass
class Seen:
    """What a look comes to: ``tellings`` that are new, and what stands already ``said_anew``.

    ``over`` are the greens on which a kind holds no more; ``known`` is kept for the next look; ``of_club``
    are the keys of what holds for the whole club now, by kind; ``looked_at`` are the rebuilds by their ids.
    """

    tellings: list[Telling] = field(default_factory=list)
    said_anew: list[Telling] = field(default_factory=list)
    over: dict[str, list[int]] = field(default_factory=dict)
    known: dict[str, dict] = field(default_factory=dict)
    planned: list[Planned] = field(default_factory=list)
    looked_at: list[int] = field(default_factory=list)
    of_club: dict[str, list[str]] = field(default_factory=dict)


def seen_in(look: Look, known: Mapping[str, Mapping]) -> Seen:
    """Everything that a look finds, against what the last one knew."""
    seen = Seen(looked_at=[one.pk for one in look.rebuilds])
    for rebuild in look.rebuilds:
        before = known.get(str(rebuild.pk), {})
        seen.known[str(rebuild.pk)] = after = {}
        for kind, ask in ON_A_GREEN.items():
            found = ask(look, rebuild, before.get(kind))
            after[str(kind)] = found.after
            if found.telling:
                (seen.tellings if found.is_new else seen.said_anew).append(found.telling)
            if kind in STANDING and not found.holds:
                seen.over.setdefault(kind, []).append(rebuild.green_id)
    seen.planned = [one for one in (opening.planned(look, rebuild) for rebuild in look.rebuilds) if one]
    _of_the_club(seen, NoticeKind.WEATHER, weather.tellings(look))
    _of_the_club(seen, NoticeKind.STOCK, stock.tellings(look))
    return seen


def _of_the_club(seen: Seen, kind: str, tellings: Iterable[Telling]) -> None:
    found = list(tellings)
    seen.tellings += found
    seen.of_club[kind] = [one.key for one in found]
