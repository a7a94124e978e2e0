"""A measure over the years: its sets as points, the line through them in its band, where it should lie."""

from math import ceil

from greens import units
from growin.charts import ink
from growin.queries.years import Followed

WIDE, NARROW = (11.0, 3.4), (4.6, 3.2)
TICKS_WIDE, TICKS_NARROW = 9, 4
ROOM = 0.12
#: The axis spans at least this share of what was read (our judgement).
LEAST_SPAN = 0.2
DAYS_A_MONTH, MONTHS_APART = 30.44, (1, 2, 3, 6)
OUTSIDE = {
    "xycoords": ("axes fraction", "data"),
    "textcoords": "offset points",
    "fontsize": 10,
    "xytext": (5, 0),
    "va": "center",
    "linespacing": 1.05,
}


@ink.drawn_once
def trend_svg(followed: Followed, narrow: bool = False) -> bytes:
    """The sets as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, followed, narrow), *(NARROW if narrow else WIDE))


def draw(figure, followed: Followed, narrow: bool) -> None:
    axes = figure.subplots()
    draw_line(axes, followed)
    draw_points(axes, followed)
    finish(axes, followed, TICKS_NARROW if narrow else TICKS_WIDE)
    draw_aim(axes, followed)


def draw_line(axes, followed: Followed) -> None:
    """The line in its band; nothing where too few sets lie too near."""
    line = followed.line
    if line:
        days = [one.on for one in line]
        axes.fill_between(days, [one.low for one in line], [one.high for one in line], color=ink.RULE, lw=0)
        axes.plot(days, [one.mean for one in line], color=ink.INK, linewidth=1.6)


def draw_points(axes, followed: Followed) -> None:
    days, values = zip(*followed.points, strict=True)
    axes.plot(days, values, "o", color=ink.ACCENT, markeredgecolor=ink.INK, markersize=7)


def draw_aim(axes, followed: Followed) -> None:
    """Where it should lie, named beside its broken lines; colour alone says nothing."""
    low, high = axes.get_ylim()
    for at, words in followed.limits:
        if low <= at <= high:
            axes.axhline(at, color=ink.INK, linewidth=1.2, linestyle=(0, (5, 3)))
            asked, what, figure = units.said(words).split(" ", 2)
            axes.annotate(f"{asked} {what}\n{figure}", (1, at), **OUTSIDE)


def finish(axes, followed: Followed, ticks: int) -> None:
    date_axis(axes, followed, ticks)
    axes.set_ylim(*span_of(followed))
    axes.set_ylabel(units.sign(followed.unit))
    axes.yaxis.set_major_formatter(lambda value, _: units.figure(f"{value:g}", followed.unit))
    axes.grid(axis="y")
    axes.set_axisbelow(True)


def date_axis(axes, followed: Followed, ticks: int) -> None:
    """Months with their year; years alone where there is no room for months."""
    from matplotlib.dates import DateFormatter, MonthLocator, YearLocator

    months = (followed.points[-1][0] - followed.points[0][0]).days / DAYS_A_MONTH
    apart = next((one for one in MONTHS_APART if months <= one * ticks), None)
    locator = MonthLocator(range(1, 13, apart)) if apart else YearLocator(ceil(months / 12 / ticks))
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(DateFormatter("%b %y" if apart else "%Y"))


def span_of(followed: Followed) -> tuple[float, float]:
    """All that is drawn with a little room, never so close that noise looks like a change; limits that lie
    within reach are brought into sight."""
    drawn = [value for _, value in followed.points]
    drawn += [end for one in followed.line for end in (one.low, one.high)]
    low, high = min(drawn), max(drawn)
    middle = (low + high) / 2
    half = max(high - low, LEAST_SPAN * abs(middle), 1e-3) / 2
    ends = [middle - half, middle + half]
    ends += [at for at, _ in followed.limits if low - half <= at <= high + half]
    room = ROOM * (max(ends) - min(ends))
    return max(0.0, min(ends) - room), max(ends) + room
