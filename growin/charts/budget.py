"""A nutrient of a season: what was given as steps, the plan broken, the band of the season at its end."""

from greens import units
from growin.charts import ink
from growin.queries.budget import Budget

WIDE, NARROW = (11.0, 3.6), (4.6, 3.6)
AT_THE_SIDE = {"xycoords": ("axes fraction", "data")}
ABOVE = {"xytext": (0, 9), "textcoords": "offset points"}
AT_ITS_END = {"xytext": (5, 0), "textcoords": "offset points", "va": "center"}


@ink.drawn_once
def budget_svg(budget: Budget, narrow: bool = False) -> bytes:
    """The season as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, budget), *(NARROW if narrow else WIDE))


def draw(figure, budget: Budget) -> None:
    axes = figure.subplots()
    draw_band(axes, budget)
    draw_plan(axes, budget)
    draw_given(axes, budget)
    finish(axes, budget)


def draw_band(axes, budget: Budget) -> None:
    """Between its lowest and its highest, hatched; the club's own limit as a line of its own."""
    if budget.band:
        axes.axhspan(*budget.band, facecolor=ink.PAPER, edgecolor=ink.RULE, hatch="////", linewidth=0)
        axes.annotate("usual in a season", (0.01, budget.band[1]), **AT_THE_SIDE, va="bottom")
    if budget.limit is not None:
        axes.axhline(budget.limit, color=ink.INK, linewidth=1.6)
        axes.annotate("the club's limit", (0.99, budget.limit), **AT_THE_SIDE, va="bottom", ha="right")


def draw_plan(axes, budget: Budget) -> None:
    if not budget.planned:
        return
    days, sums = zip(*budget.running_plan(), strict=True)
    axes.step(days, sums, where="post", color=ink.FAINT, linewidth=1.4, linestyle=(0, (5, 3)))
    axes.annotate("planned", (days[-1], sums[-1]), **AT_ITS_END)


def draw_given(axes, budget: Budget) -> None:
    days, sums = zip(*budget.running(), strict=True)
    axes.step(days, sums, where="post", color=ink.ACCENT, linewidth=3)
    axes.plot(days[-1:], sums[-1:], "o", color=ink.ACCENT, markeredgecolor=ink.INK, markersize=7)
    axes.annotate("given", (days[-1], sums[-1]), **ABOVE, ha="right", weight=600)


def finish(axes, budget: Budget) -> None:
    from matplotlib.dates import DateFormatter, MonthLocator

    axes.set_xlim(budget.first, budget.last)
    axes.set_ylim(bottom=0)
    axes.set_ylabel(f"{budget.element}, {units.sign('kg/ha')}")
    axes.yaxis.set_major_formatter(lambda kg_ha, _: units.figure(f"{kg_ha:g}", "kg/ha"))
    axes.xaxis.set_major_locator(MonthLocator(interval=2))
    axes.xaxis.set_major_formatter(DateFormatter("%b"))
    axes.grid(axis="y")
    axes.set_axisbelow(True)
