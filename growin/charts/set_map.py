"""A set of readings on the outline of its green: weak places are larger, open and bear their value."""

import math

from greens import units
from growin.agronomy.outline import Outline
from growin.agronomy.rules import NOT_MET
from growin.charts import ink
from growin.queries.set_map import Mark, SetMap

WIDTH_IN, ROOM_M, FOOT_M = 4.6, 1.5, 4.0
#: The bar is the longest of these that is no more than a third of the green.
BARS_M = (1, 2, 5, 10, 20)
ON_PAPER = {"facecolor": ink.PAPER, "edgecolor": "none", "pad": 0.6, "alpha": 0.9}
WEAK = {"markersize": 20, "markerfacecolor": ink.PAPER, "markeredgewidth": 3}
SOUND = {"markersize": 9, "markerfacecolor": ink.INK, "markeredgewidth": 1}


@ink.drawn_once
def set_map_svg(drawn: SetMap) -> bytes:
    """The map as SVG."""
    left, lower, right, upper = drawn.outline.box_m
    height_in = WIDTH_IN * (upper - lower + FOOT_M + ROOM_M) / (right - left + 2 * ROOM_M)
    sheet = (WIDTH_IN, min(max(height_in, 2.5), 9.0))
    return ink.svg(lambda figure: draw(figure, drawn), *sheet)


def draw(figure, drawn: SetMap) -> None:
    axes = figure.subplots()
    axes.set_aspect("equal")
    axes.axis("off")
    xs, ys = zip(*drawn.outline.points_m, strict=True)
    axes.fill(xs, ys, facecolor=ink.PAPER, edgecolor=ink.INK, linewidth=1.6)
    for one in drawn.placed:
        draw_mark(axes, one)
    draw_bar(axes, drawn.outline)
    if drawn.bearing_deg is not None:
        draw_north(axes, drawn.outline, math.radians(drawn.bearing_deg))


def draw_mark(axes, mark: Mark) -> None:
    is_weak = mark.state == NOT_MET
    axes.plot(*mark.place_m, "o", markeredgecolor=ink.INK, linestyle="none", **(WEAK if is_weak else SOUND))
    if is_weak:
        axes.annotate(str(mark.number), mark.place_m, ha="center", va="center", fontsize=11)
    words = units.said(f"{mark.words}, not met" if is_weak else mark.words)
    axes.annotate(
        words, mark.place_m, xytext=(0, -13 if is_weak else -7), textcoords="offset points", ha="center",
        va="top", fontsize=12, weight=600 if is_weak else 400, bbox=ON_PAPER,
    )  # fmt: skip


def draw_bar(axes, outline: Outline) -> None:
    """How long some metres are, beneath the green."""
    left, lower, right, upper = outline.box_m
    length = max((one for one in BARS_M if one <= (right - left) / 3), default=BARS_M[0])
    foot = lower - FOOT_M / 2
    axes.plot((left, left + length), (foot, foot), color=ink.INK, linewidth=3, solid_capstyle="butt")
    axes.annotate(units.amount(length, "m"), (left + length + 0.6, foot), va="center", fontsize=12)
    axes.set_xlim(left - ROOM_M, right + ROOM_M)
    axes.set_ylim(lower - FOOT_M, upper + ROOM_M)


def draw_north(axes, outline: Outline, bearing: float) -> None:
    """An arrow to the north in the lower right corner; the sheet points up to ``bearing``."""
    _, lower, right, _ = outline.box_m
    tail = (right - 1, lower - FOOT_M / 2)
    tip = (tail[0] - 1.6 * math.sin(bearing), tail[1] + 1.6 * math.cos(bearing))
    axes.annotate(
        "N", tip, xytext=tail, ha="center", va="center", arrowprops={"arrowstyle": "->"}, fontsize=12
    )
