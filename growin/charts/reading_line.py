"""Readings against their rule on their clock: single values, the mean with its interval, the limits."""

from greens import units
from growin.charts import ink
from growin.queries.reading_line import ReadingLine

WIDE, NARROW = (11.0, 3.8), (4.6, 3.8)
ROOM = 1.06
MONTHS_WIDE, MONTHS_NARROW, MONTHS_OF_A_YEAR = 12, 4, 12
FROM_NOUGHT_UNDER = 50
ON_PAPER = {"facecolor": ink.PAPER, "edgecolor": "none", "pad": 0.5}


@ink.drawn_once
def reading_line_svg(line: ReadingLine, narrow: bool = False) -> bytes:
    """The readings as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, line, narrow), *(NARROW if narrow else WIDE))


def draw(figure, line: ReadingLine, narrow: bool) -> None:
    axes = figure.subplots()
    draw_values(axes, line)
    draw_means(axes, line)
    draw_limits(axes, line)
    finish(axes, line)
    date_months(axes, line, MONTHS_NARROW if narrow else MONTHS_WIDE)


def draw_values(axes, line: ReadingLine) -> None:
    pairs = [(point.clock, value) for point in line.points for value in point.values]
    if pairs:
        clocks, values = zip(*pairs, strict=True)
        axes.plot(clocks, values, "o", color="none", markeredgecolor=ink.FAINT, markersize=4)


def draw_means(axes, line: ReadingLine) -> None:
    for point in line.points:
        if point.low is not None:
            axes.vlines(point.clock, point.low, point.high, color=ink.INK, linewidth=1.8)
    clocks, means = [one.clock for one in line.points], [one.centre for one in line.points]
    axes.plot(clocks, means, color=ink.INK, linewidth=0.8)
    axes.plot(clocks, means, "o", color=ink.ACCENT, markeredgecolor=ink.INK, markersize=8, linestyle="none")


def draw_limits(axes, line: ReadingLine) -> None:
    """Each limit is named on its line; colour alone says nothing."""
    for number, one in enumerate(line.limits):
        axes.axhline(one.at, color=ink.INK, linewidth=1.2, linestyle=(0, (5, 3)))
        place = {"xytext": (4, -3), "va": "top"} if number else {"xytext": (4, 3), "va": "bottom"}
        axes.annotate(
            units.said(one.words), (0, one.at), xycoords=("axes fraction", "data"),
            textcoords="offset points", fontsize=10, bbox=ON_PAPER, **place,
        )  # fmt: skip


def finish(axes, line: ReadingLine) -> None:
    axes.set_xlim(0, max(line.until, 1) * ROOM)
    axes.set_ylim(*span_of(line))
    axes.set_xlabel(f"{units.sign(line.clock_unit)} since {line.begun}")
    axes.xaxis.set_major_formatter(lambda run, _: units.figure(f"{run:,.0f}", line.clock_unit))
    axes.set_ylabel(f"{line.measure.words}, {units.sign(line.unit)}" if line.unit else line.measure.words)
    axes.yaxis.set_major_formatter(lambda value, _: units.figure(f"{value:g}", line.unit))


def span_of(line: ReadingLine) -> tuple[float, float]:
    """All that is drawn with a little room; low shares from 0 to 100 %, high ones from a little below."""
    drawn = [one.at for one in line.limits]
    drawn += [value for point in line.points for value in (*point.values, point.centre)]
    drawn += [end for point in line.points for end in (point.low, point.high) if end is not None]
    if line.unit == "%":
        return max(0.0, min(drawn) - 12) if min(drawn) > FROM_NOUGHT_UNDER else -4.0, 106.0
    low, high = min(0.0, *drawn), max(drawn)
    return low, low + (high - low or 1) * 1.15


def date_months(axes, line: ReadingLine, most: int) -> None:
    """The first of each month above, as far as there is room."""
    apart, shown = line.until / most, []
    for clock, on in line.months:
        if not shown or clock - shown[-1][0] >= apart:
            shown.append((clock, on))
    long = len(line.months) > MONTHS_OF_A_YEAR
    above = axes.secondary_xaxis("top")
    above.set_xticks([at for at, _ in shown], [f"{on:%b %y}" if long else f"1 {on:%b}" for _, on in shown])
    above.spines["top"].set_visible(False)
