"""This season's warmth as a line, a normal one broken, the club's earlier ones as a band or thin lines."""

from datetime import timedelta

import numpy as np

from greens import units
from growin.charts import ink
from growin.queries.season import Season

WIDE, NARROW = (11.0, 3.6), (4.6, 3.6)
BAND_FROM = 3
AT_ITS_END = {"xytext": (6, 0), "textcoords": "offset points", "va": "center"}


@ink.drawn_once
def season_svg(season: Season, narrow: bool = False) -> bytes:
    """The season as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, season), *(NARROW if narrow else WIDE))


def draw(figure, season: Season) -> None:
    axes = figure.subplots()
    start, warmth = season.warmth.this.start, season.warmth
    days = np.array([start + timedelta(days=n) for n in range(len(warmth.normal))])
    draw_earlier(axes, season, days)
    axes.plot(days, warmth.normal, color=ink.FAINT, linewidth=1.4, linestyle=(0, (5, 3)))
    draw_this(axes, season, days)
    name_lines(axes, season, days)
    finish(axes, season, days)


def draw_earlier(axes, season: Season, days: np.ndarray) -> None:
    earlier = season.warmth.earlier
    if len(earlier) >= BAND_FROM:
        axes.fill_between(days, *season.warmth.span, color=ink.RULE, linewidth=0)
    for run in earlier:
        axes.plot(days, run.sums, color=ink.FAINT, linewidth=0.6)


def draw_this(axes, season: Season, days: np.ndarray) -> None:
    """Measured stretches in full, estimated ones dotted."""
    run = season.warmth.this
    so_far = days[: len(run.sums)]
    measured = np.where(run.is_measured, run.sums, np.nan)
    axes.plot(so_far, run.sums, color=ink.INK, linewidth=1.6, linestyle=(0, (1, 2)))
    axes.plot(so_far, measured, color=ink.GROWTH, linewidth=3)
    axes.plot(so_far[-1:], run.sums[-1:], "o", color=ink.GROWTH, markeredgecolor=ink.INK, markersize=7)


def name_lines(axes, season: Season, days: np.ndarray) -> None:
    """Every line is named where it ends; colour alone says nothing."""
    run, normal = season.warmth.this, season.warmth.normal
    place = days[len(run.sums) - 1], run.sums[-1]
    below = run.sums[-1] < normal[len(run.sums) - 1]
    shift = {"xytext": (4, -14 if below else 10), "textcoords": "offset points", "weight": 600}
    axes.annotate(run.years, place, ha="left" if below else "right", **shift)
    axes.annotate("normal", (days[-1], normal[-1]), **AT_ITS_END)
    if len(season.warmth.earlier) < BAND_FROM:
        for one in season.warmth.earlier:
            axes.annotate(one.years, (days[-1], one.sums[-1]), **AT_ITS_END)


def finish(axes, season: Season, days: np.ndarray) -> None:
    from matplotlib.dates import DateFormatter, MonthLocator

    axes.set_xlim(days[0], days[-1])
    axes.set_ylim(bottom=0)
    axes.set_ylabel(units.sign("°C·days"))
    axes.yaxis.set_major_formatter(lambda sum_c, _: units.figure(f"{sum_c:,.0f}", "°C·days"))
    axes.xaxis.set_major_locator(MonthLocator(interval=2))
    axes.xaxis.set_major_formatter(DateFormatter("%b"))
    axes.grid(axis="y")
    axes.set_axisbelow(True)
