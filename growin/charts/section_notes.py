"""What stands beside the section: a note for each layer, pushed apart until all can be read."""

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from greens import units
from growin.agronomy.build_facts import BLINDING, EXCAVATION, GRAVEL, ROOTZONE, BuildFacts
from growin.agronomy.construction import OUT, RowJudgement
from growin.agronomy.plain_words import amount

LAYERS = {
    ROOTZONE: "Rootzone",
    BLINDING: "Blinding layer",
    GRAVEL: "Gravel",
    EXCAVATION: "Floor of the digging",
}
DEPTH_ROWS = {
    ROOTZONE: "rootzone_depth",
    BLINDING: "blinding_depth",
    GRAVEL: "gravel_depth",
    EXCAVATION: "excavation",
}
LINE_MM, GAP_MM, SIGNS = 25, 12, 27


@dataclass(frozen=True)
class Note:
    """Words at a depth: ``at_mm`` where they belong, ``top_mm`` where they stand."""

    heading: str
    lines: tuple[str, ...]
    at_mm: float
    is_out: bool
    top_mm: float = 0

    @property
    def foot_mm(self) -> float:
        return self.top_mm + (1 + len(self.lines)) * LINE_MM


def notes_of(facts: BuildFacts, judged: Sequence[RowJudgement], turf_mm: float | None = None) -> list[Note]:
    """Notes from the top down, none over another."""
    placed: list[Note] = []
    for note in sorted([*turf_note(turf_mm), *wanted_notes(facts, judged)], key=lambda note: note.at_mm):
        height = (1 + len(note.lines)) * LINE_MM
        free = placed[-1].foot_mm + GAP_MM if placed else -(turf_mm or 0)
        top = max(free, note.at_mm - height / 2)
        placed.append(Note(note.heading, note.lines, note.at_mm, note.is_out, top))
    return placed


def wanted_notes(facts: BuildFacts, judged: Sequence[RowJudgement]) -> Iterator[Note]:
    for layer in LAYERS:
        depths = facts.readings(layer)
        if depths:
            top, foot = facts.lies_at(layer)
            at = foot if layer == EXCAVATION else (top + foot) / 2
            yield layer_note(layer, depths, at, judged)
    if facts.drains.trench_depth_mm and floor_mm(facts):
        yield trench_note(facts, judged)


def turf_note(turf_mm: float | None) -> list[Note]:
    return [Note("Turf", wrapped([amount(turf_mm, "mm") + " thick"]), -turf_mm / 2, False)] if turf_mm else []


def layer_note(layer: str, depths: Sequence[float], at_mm: float, judged: Sequence[RowJudgement]) -> Note:
    row = next((one for one in judged if one.item == DEPTH_ROWS[layer]), None)
    is_out = row is not None and row.state == OUT
    words = [measured(depths)]
    if is_out:
        words.append(f"out: {row.wanted} wanted")
    besides = [one.words for one in judged if one.state == OUT and one is not row and lies_in(one, at_mm)]
    if besides and layer != EXCAVATION:
        words.append(f"out in its sheet: {len(besides)} of the rows below")
    return Note(LAYERS[layer], wrapped(words), at_mm, is_out or bool(besides and layer != EXCAVATION))


def lies_in(row: RowJudgement, at_mm: float) -> bool:
    """Whether a row of the laboratory's lies where that layer does."""
    known = row.depth_from_mm is not None and row.item not in DEPTH_ROWS.values()
    return known and row.depth_from_mm <= at_mm <= row.depth_to_mm


def trench_note(facts: BuildFacts, judged: Sequence[RowJudgement]) -> Note:
    drains, items = facts.drains, {"trench_width", "trench_depth", "bedding"}
    out = [one for one in judged if one.item in items and one.state == OUT]
    size = " × ".join(amount(one) for one in (drains.trench_width_mm, drains.trench_depth_mm) if one)
    words = [f"{size} mm"] + [f"out: {one.wanted} wanted, {one.found} found" for one in out]
    at = floor_mm(facts) + drains.trench_depth_mm / 2
    return Note("Drain trench", wrapped(words), at, bool(out))


def measured(depths: Sequence[float]) -> str:
    mean = amount(sum(depths) / len(depths), "mm", 0)
    if len(depths) == 1:
        return f"{mean}, one reading"
    return f"{mean} on average, {amount(min(depths))}–{amount(max(depths), 'mm')} at {len(depths)} places"


def wrapped(words: Sequence[str]) -> tuple[str, ...]:
    return tuple(line for words in words for line in textwrap.wrap(units.said(words), SIGNS))


def floor_mm(facts: BuildFacts) -> float | None:
    """Where the trench begins: the floor of the digging, or the foot of the lowest layer."""
    feet = (facts.lies_at(layer)[1] for layer in (EXCAVATION, GRAVEL, BLINDING, ROOTZONE))
    return next((foot for foot in feet if foot is not None), None)
