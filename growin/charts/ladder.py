"""The ladder: heights of cut as rungs going down, planned and cut, with the gates between."""

from datetime import date, timedelta
from textwrap import fill

from greens import units
from growin.charts import ink
from growin.queries.ladder import Ladder

WIDE, NARROW = (11.0, 3.6), (4.6, 3.8)
BEYOND = timedelta(days=10)
BESIDE = {"xytext": (-5, 0), "textcoords": "offset points", "ha": "right", "va": "center"}
GATE_AT = ("data", "axes fraction")


@ink.drawn_once
def ladder_svg(ladder: Ladder, narrow: bool = False) -> bytes:
    """The ladder as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, ladder, narrow), *(NARROW if narrow else WIDE))


def draw(figure, ladder: Ladder, narrow: bool) -> None:
    axes = figure.subplots()
    draw_windows(axes, ladder)
    draw_rungs(axes, ladder, narrow)
    draw_cuts(axes, ladder)
    draw_gates(axes, ladder, narrow)
    finish(axes, ladder, narrow)


def ends(ladder: Ladder) -> list[date]:
    """The day each rung is left: that of the next, and a while for the last."""
    following = [rung.likely for rung in ladder.rungs[1:]]
    return following + [ladder.rungs[-1].likely + 3 * BEYOND] if ladder.rungs else []


def draw_windows(axes, ladder: Ladder) -> None:
    """From the earliest to the latest day of each rung, a broad pale line."""
    for rung in ladder.rungs:
        axes.hlines(rung.height_mm, rung.earliest, rung.latest, color=ink.RULE, linewidth=9)


def draw_rungs(axes, ladder: Ladder, narrow: bool) -> None:
    for rung, end in zip(ladder.rungs, ends(ladder), strict=True):
        axes.hlines(rung.height_mm, rung.likely, end, color=ink.INK, linewidth=2)
        height = f"{rung.height_mm:g}"
        words = units.figure(height, "mm") if narrow else units.amount(height, "mm")
        axes.annotate(words, (rung.likely, rung.height_mm), **BESIDE)
    for above, below in zip(ladder.rungs, ladder.rungs[1:], strict=False):
        axes.vlines(below.likely, below.height_mm, above.height_mm, color=ink.INK, linewidth=0.8)


def draw_cuts(axes, ladder: Ladder) -> None:
    days, heights = [cut.on for cut in ladder.cuts], [cut.height_mm for cut in ladder.cuts]
    marks = {"markerfacecolor": ink.ACCENT, "markeredgecolor": ink.INK, "markersize": 6}
    axes.plot(days, heights, "o", linestyle="none", label="cut", **marks)


def draw_gates(axes, ladder: Ladder, narrow: bool) -> None:
    for on, words in ladder.gates:
        axes.axvline(on, color=ink.INK, linewidth=1.4, linestyle=(0, (2, 3)))
        said = fill(words, 16 if narrow else 24)
        axes.annotate(said, (on, 1), (5, -4), xycoords=GATE_AT, textcoords="offset points", va="top")


def finish(axes, ladder: Ladder, narrow: bool) -> None:
    from matplotlib.dates import AutoDateLocator, ConciseDateFormatter

    heights = [rung.height_mm for rung in ladder.rungs] + [cut.height_mm for cut in ladder.cuts]
    axes.margins(x=0.08)
    axes.set_ylim(min(heights, default=0) - 1, max(heights, default=12) + 2)
    axes.set_ylabel(units.label("height of cut, mm", "mm"))
    axes.yaxis.set_major_formatter(lambda height_mm, _: units.figure(f"{height_mm:g}", "mm"))
    locator = AutoDateLocator(minticks=3, maxticks=5 if narrow else 9)
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(ConciseDateFormatter(locator))
