"""The growth strip: a thin bar a day, and beneath it a small mark for all that was done and read."""

from datetime import timedelta

from greens import units
from growin.charts import ink
from growin.queries.story import Story

FULL_C = 14  # a day this far above the leaf base fills the strip
SHAPES = {
    "Cuts": ("|", "none"),
    "Feeds": ("^", ink.ACCENT),
    "Dressings": ("o", ink.SAND),
    "Readings": ("s", "none"),
}
WIDE, NARROW = (11.0, 3.0), (4.6, 3.4)


@ink.drawn_once
def strip_svg(story: Story, narrow: bool = False) -> bytes:
    """The strip as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, story), *(NARROW if narrow else WIDE))


def draw(figure, story: Story) -> None:
    bars, marks = figure.subplots(2, 1, sharex=True, height_ratios=(3, 2))
    if story.days:
        draw_days(bars, story)
    draw_turns(bars, story)
    draw_marks(marks, story)


def draw_days(axes, story: Story) -> None:
    edges = [day.on for day in story.days] + [story.days[-1].on + timedelta(days=1)]
    measured = [min(day.leaf_c, FULL_C) * day.is_measured for day in story.days]
    estimated = [min(day.leaf_c, FULL_C) * (not day.is_measured) for day in story.days]
    axes.stairs(measured, edges, fill=True, color=ink.GROWTH)
    axes.stairs(estimated, edges, fill=True, facecolor=ink.PAPER, edgecolor=ink.GROWTH, hatch="/////")
    axes.set_ylim(0, FULL_C * 1.25)
    half, full = (units.figure(f"{above_c:g}", "°C more or less") for above_c in (FULL_C / 2, FULL_C))
    axes.set_yticks([0, FULL_C / 2, FULL_C], ["0", half, f"{full} {units.sign('°C')}"])
    axes.set_xlim(edges[0], edges[-1])


def draw_turns(axes, story: Story) -> None:
    for row, (on, words) in enumerate(story.turns):
        axes.axvline(on, color=ink.INK, linewidth=1.4)
        axes.annotate(
            f" {words}", (on, 1 - 0.14 * row), xycoords=("data", "axes fraction"), va="top", weight=600
        )


def draw_marks(axes, story: Story) -> None:
    from matplotlib.dates import AutoDateLocator, ConciseDateFormatter

    rows = list(story.marks.items())
    for row, (words, days) in enumerate(rows):
        shape, fill = SHAPES[words]
        axes.plot(days, [row] * len(days), shape, color=ink.INK, markerfacecolor=fill, markersize=6)
    axes.set_yticks(range(len(rows)), [words for words, _ in rows])
    axes.set_ylim(len(rows) - 0.4, -0.6)
    axes.tick_params(axis="y", length=0)
    axes.spines["left"].set_visible(False)
    locator = AutoDateLocator(minticks=3, maxticks=9)
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(ConciseDateFormatter(locator))
