"""The season report on paper: a green after the other, each with its pictures in it."""

from base64 import b64encode
from collections.abc import Callable, Sequence

from django.template.loader import render_to_string

from greens import units
from greens.choices import Units
from growin.charts.trend import trend_svg
from growin.charts.years import years_svg
from growin.exports.press import PICTURE, VARIANT, press
from growin.queries.season_report import SeasonReport

TEMPLATE = "growin/season_report/document.html"
SHEETS = ("ground", "page", "statement", "season_report")


def season_report_pdf(reports: Sequence[SeasonReport]) -> bytes:
    """All reports as one PDF/UA-1, on Letter for a club that reads inches, else on A4.

    Raises
    ------
    PangoMissing
        Where the library that sets type is not on this machine.
    """
    return press(*SHEETS).pages(document(reports)).write_pdf(pdf_variant=VARIANT)


def document(reports: Sequence[SeasonReport]) -> str:
    """The reports as HTML with their pictures."""
    shown = {
        "leaves": [leaf(one) for one in reports],
        "first": reports[0],
        "is_one": len(reports) == 1,
        "paper": "letter" if units.active() == Units.US else "a4",
    }
    return render_to_string(TEMPLATE, shown)


def leaf(report: SeasonReport) -> dict:
    pictures = {one.words: carried(trend_svg, one) for one in report.drawn}
    together = carried(years_svg, report.known, narrow=False) if report.before else ""
    return {"report": report, "pictures": pictures, "together": together}


def carried(draw: Callable[..., bytes], one, narrow: bool = True) -> str:
    """A picture that lies in the page itself."""
    return f"{PICTURE}{b64encode(draw(one, narrow)).decode()}"
