"""Year against year: nitrogen, sand and days kept off as bars side by side, the oldest year first."""

from collections.abc import Sequence

from greens import units
from growin.agronomy.plain_words import amount
from growin.charts import ink
from growin.queries.years import Year, Years

WIDE, NARROW = (11.0, 2.7), (4.6, 6.4)
PARTS = 3
ROOM, LEAST_YEARS = 1.22, 4
SO_FAR = "////"
ABOVE = {"xytext": (0, 3), "textcoords": "offset points", "ha": "center", "va": "bottom", "fontsize": 10}


@ink.drawn_once
def years_svg(known: Years, narrow: bool = False) -> bytes:
    """The years as SVG, for a desk or for a phone."""
    return ink.svg(lambda figure: draw(figure, known.years[::-1], narrow), *(NARROW if narrow else WIDE))


def draw(figure, years: Sequence[Year], narrow: bool) -> None:
    nitrogen, sand, off = figure.subplots(*((PARTS, 1) if narrow else (1, PARTS)))
    draw_bars(nitrogen, years, [one.n_kg_ha for one in years], ink.RULE)
    finish(nitrogen, f"Nitrogen, {units.sign('kg/ha')}", [said(one.n_kg_ha, 0, "kg/ha") for one in years])
    draw_bars(sand, years, [one.sand_kg_m2 for one in years], ink.SAND)
    finish(sand, f"Sand, {units.sign('kg/m²')}", [said(one.sand_kg_m2, 1, "kg/m²") for one in years])
    draw_bars(off, years, [one.share_off or 0.0 for one in years], ink.RULE)
    finish(off, "Days kept off, of those written down", [one.off_in_words for one in years])


def draw_bars(axes, years: Sequence[Year], values: Sequence[float], colour: str) -> None:
    """A bar a year in an outline of ink; the year that still runs is hatched."""
    bars = axes.bar([one.name for one in years], values, color=colour, edgecolor=ink.INK, width=0.6)
    if years[-1].is_running:
        bars[-1].set_hatch(SO_FAR)
    axes.set_xlim(-0.5, max(len(years), LEAST_YEARS) - 0.5)
    axes.set_ylim(0, (max(values) or 1.0) * ROOM)


def said(value: float, places: int, unit: str) -> str:
    return units.figure(amount(value, "", places), unit)


def finish(axes, title: str, figures: Sequence[str]) -> None:
    """Every bar says its figure; so no scale beside them."""
    axes.set_title(title, loc="left", fontsize=11)
    for bar, words in zip(axes.patches, figures, strict=True):
        axes.annotate(words, (bar.get_x() + bar.get_width() / 2, bar.get_height()), **ABOVE)
    axes.yaxis.set_visible(False)
    axes.spines["left"].set_visible(False)
    axes.tick_params(axis="x", length=0)
