"""The section of a build: one millimetre is as wide as it is deep, from the depths as levelled.

Each short stroke is one level reading; the line through them is their mean.
"""

from collections.abc import Sequence

from greens import units
from growin.agronomy.build_facts import BLINDING, EXCAVATION, GRAVEL, ROOTZONE, BuildFacts
from growin.agronomy.construction import RowJudgement
from growin.charts import ink
from growin.charts.section_notes import LINE_MM, Note, floor_mm, notes_of

CUT_MM, LEFT_MM, RIGHT_MM, MM_PER_IN = 220, -85, 590, 157
LOOKS = {
    ROOTZONE: ("#EADCC0", "..."),
    BLINDING: (ink.SAND, "...."),
    GRAVEL: (ink.RULE, "oo"),
}
NOTE_X_MM, HEAD_MM, MARGIN_MM = CUT_MM + 34, 45, 45
APART_MM = 24
HEAD = "{} below the finished level of the rootzone"


@ink.drawn_once
def section_svg(facts: BuildFacts, judged: Sequence[RowJudgement], turf_mm: float | None = None) -> bytes:
    """The section as SVG; the same bytes for the same facts."""
    notes = notes_of(facts, judged, turf_mm)
    head_mm = HEAD_MM + (turf_mm or 0)
    foot_mm = max([deepest_mm(facts), *(note.foot_mm for note in notes)]) + MARGIN_MM
    height_in = (foot_mm + head_mm) / MM_PER_IN
    width_in = (RIGHT_MM - LEFT_MM) / MM_PER_IN

    def draw(figure) -> None:
        figure.set_layout_engine("none")
        axes = figure.add_axes((0, 0, 1, 1))
        axes.set(xlim=(LEFT_MM, RIGHT_MM), ylim=(foot_mm, -head_mm), aspect="equal")
        axes.set_axis_off()
        axes.text(LEFT_MM + 8, 12 - head_mm, HEAD.format(units.sign("mm")), va="top", color=ink.FAINT)
        draw_section(axes, facts, turf_mm)
        for note in notes:
            draw_note(axes, note)

    return ink.svg(draw, width_in, height_in)


def deepest_mm(facts: BuildFacts) -> float:
    floor = floor_mm(facts) or 0
    readings = [*facts.readings(EXCAVATION), floor + (facts.drains.trench_depth_mm or 0)]
    return max([*readings, 60])


def draw_section(axes, facts: BuildFacts, turf_mm: float | None) -> None:
    draw_ground(axes, facts)
    draw_trench(axes, facts)
    for layer in (GRAVEL, BLINDING, ROOTZONE):
        if facts.readings(layer):
            draw_layer(axes, layer, *facts.lies_at(layer))
    for layer in (ROOTZONE, BLINDING, GRAVEL):
        if facts.readings(layer):
            draw_readings(axes, [facts.lies_at(layer)[0] + one for one in facts.readings(layer)])
    draw_readings(axes, facts.readings(EXCAVATION))
    draw_surface(axes, turf_mm)
    draw_depths(axes, facts)


def box(axes, top_mm: float, foot_mm: float, x_mm: float = 0, width_mm: float = CUT_MM, **look) -> None:
    from matplotlib.patches import Rectangle

    axes.add_patch(Rectangle((x_mm, top_mm), width_mm, foot_mm - top_mm, **look))


def draw_ground(axes, facts: BuildFacts) -> None:
    """The ground that was left in place, hatched, down to the foot of the picture."""
    floor = floor_mm(facts) or 0
    foot = deepest_mm(facts) + 22
    box(axes, floor, foot, facecolor=ink.PAPER, edgecolor=ink.FAINT, hatch="////", linewidth=0)
    axes.plot([0, CUT_MM], [floor, floor], color=ink.INK, linewidth=1.2)


def draw_trench(axes, facts: BuildFacts) -> None:
    from matplotlib.patches import Circle

    drains, floor = facts.drains, floor_mm(facts)
    if floor is None or not drains.trench_depth_mm:
        return
    width = min(drains.trench_width_mm or 150, CUT_MM - 20)
    colour, hatch = LOOKS[GRAVEL]
    look = {"facecolor": colour, "edgecolor": ink.INK, "hatch": hatch, "linewidth": 1.2}
    foot = floor + drains.trench_depth_mm
    box(axes, floor, foot, (CUT_MM - width) / 2, width, **look)
    pipe = drains.lateral_mm or drains.main_mm
    if pipe and pipe < width:
        centre = (CUT_MM / 2, foot - (drains.bedding_mm or 0) - pipe / 2)
        axes.add_patch(Circle(centre, pipe / 2, facecolor=ink.PAPER, edgecolor=ink.INK, linewidth=1.6))


def draw_layer(axes, layer: str, top_mm: float, foot_mm: float) -> None:
    colour, hatch = LOOKS[layer]
    box(axes, top_mm, foot_mm, facecolor=colour, edgecolor=ink.FAINT, hatch=hatch, linewidth=0)
    axes.plot([0, CUT_MM], [foot_mm, foot_mm], color=ink.INK, linewidth=1.4)


def draw_readings(axes, depths_mm: Sequence[float]) -> None:
    """A stroke for each reading, in the order they were taken, from left to right."""
    step = CUT_MM / max(len(depths_mm), 1)
    half = min(step * 0.35, 9)
    for number, depth in enumerate(depths_mm):
        at = (number + 0.5) * step
        axes.plot([at - half, at + half], [depth, depth], color=ink.PAPER, linewidth=4, solid_capstyle="butt")
        axes.plot([at - half, at + half], [depth, depth], color=ink.INK, linewidth=2, solid_capstyle="butt")


def draw_surface(axes, turf_mm: float | None) -> None:
    if turf_mm:
        box(axes, -turf_mm, 0, facecolor=ink.GROWTH, edgecolor=ink.INK, linewidth=1)
    axes.plot([0, CUT_MM], [0, 0], color=ink.INK, linewidth=1.8)


def draw_depths(axes, facts: BuildFacts) -> None:
    """Depths of the faces along the left edge; one too near the last is left out."""
    faces = [0.0] + [
        facts.lies_at(layer)[1] for layer in (ROOTZONE, BLINDING, GRAVEL) if facts.readings(layer)
    ]
    floor = floor_mm(facts)
    if floor is not None:
        trench = facts.drains.trench_depth_mm
        faces += [floor, *([floor + trench] if trench else [])]
    last = -APART_MM
    for depth in sorted(set(faces)):
        if depth - last >= APART_MM:
            axes.plot([-7, 0], [depth, depth], color=ink.INK, linewidth=1)
            axes.text(-12, depth, units.figure(f"{depth:.0f}", "mm"), ha="right", va="center")
            last = depth


def draw_note(axes, note: Note) -> None:
    """The words, a line to where they belong, and an open ring where that is out."""
    at_text = note.top_mm + LINE_MM / 2
    axes.plot(
        [CUT_MM, CUT_MM + 14, NOTE_X_MM - 6], [note.at_mm, note.at_mm, at_text], color=ink.INK, linewidth=0.8
    )
    if note.is_out:
        axes.plot(
            [CUT_MM], [note.at_mm], "o", markersize=9, markerfacecolor=ink.PAPER,
            markeredgecolor=ink.ACCENT, markeredgewidth=2.2,
        )  # fmt: skip
    colour = ink.ACCENT if note.is_out else ink.INK
    axes.text(NOTE_X_MM, at_text, note.heading, va="center", weight=600, color=colour)
    for number, line in enumerate(note.lines, start=1):
        axes.text(NOTE_X_MM, at_text + number * LINE_MM, line, va="center", color=ink.INK)
