"""The fan: the opening date as a strip of days, darker where likelier, with the days that matter named."""

from datetime import timedelta

from growin.agronomy.plain_words import day
from growin.charts import ink
from growin.queries.fan import Fan

WIDE, NARROW = (11.0, 2.6), (4.6, 3.2)
BOTTOM, TOP = 0.0, 1.0
ROW = 0.55  # height of one row of names above the strip
DAY = timedelta(days=1)
ON_PAPER = {"facecolor": ink.PAPER, "edgecolor": "none", "pad": 1}


@ink.drawn_once
def fan_svg(fan: Fan, narrow: bool = False) -> bytes:
    """The fan as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, fan, narrow), *(NARROW if narrow else WIDE))


def draw(figure, fan: Fan, narrow: bool) -> None:
    axes = figure.subplots()
    draw_days(axes, fan)
    draw_marks(axes, fan)
    draw_proposed(axes, fan)
    finish(axes, fan, narrow)


def draw_days(axes, fan: Fan) -> None:
    """Bars from paper to heather, each under the next so that no gap shows, inside an outline of ink."""
    first, last = fan.span
    for on, share in fan.density:
        until = min(on + (fan.bar_days + 1) * DAY, last + DAY)
        axes.fill_between([on, until], BOTTOM, TOP, color=mixed(share), linewidth=0)
    axes.hlines([BOTTOM, TOP], first, last + DAY, color=ink.INK, linewidth=1)
    axes.vlines([first, last + DAY], BOTTOM, TOP, color=ink.INK, linewidth=1)


def mixed(share: float) -> tuple[float, ...]:
    """The colour between paper and heather."""
    paper, heather = ([int(one[n : n + 2], 16) for n in (1, 3, 5)] for one in (ink.PAPER, ink.ACCENT))
    return tuple((light + share * (dark - light)) / 255 for light, dark in zip(paper, heather, strict=True))


def draw_marks(axes, fan: Fan) -> None:
    """The three days as lines through the strip, each named on a row of its own, the first highest."""
    first, last = fan.span
    for row, (on, words) in enumerate(reversed(fan.marks)):
        height = TOP + ROW * (row + 0.6)
        late = on - first > (last - first) / 2
        axes.vlines(on, BOTTOM, height, color=ink.INK, linewidth=2 if words == "as likely as not" else 1.2)
        said = f"{words}: {day(on, first)}"
        shift = (-5 if late else 5, 0)
        axes.annotate(
            said, (on, height), shift, textcoords="offset points", ha="right" if late else "left",
            va="center", bbox=ON_PAPER,
        )  # fmt: skip


def draw_proposed(axes, fan: Fan) -> None:
    if fan.proposed is None:
        return
    first, last = fan.span
    late = fan.proposed - first > (last - first) / 2
    place = (fan.proposed, BOTTOM - ROW * 0.5)
    axes.plot(*place, "D", color=ink.PAPER, markeredgecolor=ink.INK, markeredgewidth=1.6, markersize=9)
    axes.vlines(fan.proposed, place[1], TOP, color=ink.INK, linewidth=1.4, linestyle=(0, (2, 2)))
    axes.annotate(
        f"in mind: {day(fan.proposed, first)}", place, (-10 if late else 10, 0),
        textcoords="offset points", ha="right" if late else "left", va="center", weight=600,
    )  # fmt: skip


def finish(axes, fan: Fan, narrow: bool) -> None:
    from matplotlib.dates import MONTHLY, AutoDateLocator, ConciseDateFormatter

    first, last = fan.span
    axes.set_xlim(first - 2 * DAY, last + 3 * DAY)
    below = ROW if fan.proposed else ROW * 0.2
    axes.set_ylim(BOTTOM - below, TOP + ROW * (len(fan.marks) + 0.3))
    axes.yaxis.set_visible(False)
    axes.spines["left"].set_visible(False)
    locator = AutoDateLocator(minticks=3, maxticks=4 if narrow else 9)
    locator.intervald[MONTHLY] = [1, 2, 3, 4, 6, 12]
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(ConciseDateFormatter(locator))
