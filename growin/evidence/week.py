"""The week on one green in plain words: what was done and read, how it stands, what comes."""

from collections import Counter
from collections.abc import Iterable

from greens.models import Entry, Establishment
from growin.agronomy.measures import MEASURES
from growin.agronomy.plain_words import amount, counted, day
from growin.agronomy.verdict import READY
from growin.agronomy.works import WORKS
from growin.evidence.chance import chance_from
from growin.evidence.occasions.look import Look
from growin.evidence.readiness import named, sentence
from growin.queries import forecast as forecasts

NEXT_STEPS, FEW = 3, 3
WALK = "walk"


def told(look: Look, rebuild: Establishment) -> str:
    """Paragraphs of one sentence or two; what there is nothing to say of is left out."""
    entries = look.week_done.get(rebuild.green_id, ())
    said = (
        work_words(entries),
        cut_words(entries),
        reading_words(look.week_read.get(rebuild.pk, ())),
        *standing_words(look, rebuild),
        next_words(look, rebuild),
    )
    return "\n\n".join(one for one in said if one)


def work_words(entries: Iterable[Entry]) -> str:
    """ "Done: feed once, topdressing twice. Walked on 5 days."."""
    rows = list(entries)
    counts = Counter(one.kind for one in rows if one.kind not in (WALK, "cut"))
    works = ", ".join(f"{WORKS[kind].words.lower()} {times(count)}" for kind, count in counts.most_common())
    walks = len({one.on for one in rows if one.kind == WALK})
    cuts = len({one.on for one in rows if one.kind == "cut"})
    said = [f"Done: {works}." if works else "Besides cuts and walks no work was logged."]
    said += [f"Cut on {counted(cuts, 'days')}."] if cuts else ["It was not cut."]
    said += [f"Walked on {counted(walks, 'days')}."] if walks else []
    return " ".join(said)


def times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def cut_words(entries: Iterable[Entry]) -> str:
    heights = [
        one.details["height_mm"] for one in entries if one.kind == "cut" and "height_mm" in one.details
    ]
    return f"Lowest height of cut {amount(min(heights), 'mm')}." if heights else ""


def reading_words(measures: Iterable[str]) -> str:
    words = list(dict.fromkeys(MEASURES[one].words for one in measures))
    if len(words) > FEW:
        return f"A set of readings was taken: {len(words)} measures."
    return f"Read: {named(words)}." if words else "Nothing was read."


def standing_words(look: Look, rebuild: Establishment) -> list[str]:
    """Before laying that it is being built; in play how it is played; else the verdict and the likely day."""
    if not look.is_laid(rebuild):
        return ["It is being built."]
    if look.is_open(rebuild):
        play = look.plays[rebuild.pk]
        return [f"In play since {day(play.since, look.on)}: {play.decision.get_pattern_display().lower()}."]
    verdict = look.judged[rebuild.pk].verdict
    ready = "It may open" if verdict.state == READY else f"Readiness: {verdict.state}"
    return [f"{ready}. {sentence(verdict)}", likely_words(look, rebuild)]


def likely_words(look: Look, rebuild: Establishment) -> str:
    row = look.forecasts.get(rebuild.pk)
    told = forecasts.as_forecast(row) if row else None
    if told is None or told.p50 is None or told.p50 <= look.on:
        return ""
    said = f"As likely as not ready by {day(told.p50, look.on)}."
    proposal = look.proposals.get(rebuild.pk)
    if proposal is None:
        return said
    chance = chance_from(told, proposal.opening_on)
    return f"{said} Chance by {day(proposal.opening_on, look.on)}, the day in mind: {chance.words}."


def next_words(look: Look, rebuild: Establishment) -> str:
    """The next steps of the programme with their likely days."""
    if not look.is_laid(rebuild):
        return ""
    steps = look.coming.get(rebuild.pk, ())[:NEXT_STEPS]
    said = "; ".join(f"{one.step.what}, {day(one.step.likely)}" for one in steps)
    return f"Next: {said}." if said else ""
