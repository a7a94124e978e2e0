"""The season of a green as a report: on screen, and as PDF for the committee."""

from django.shortcuts import redirect, render
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from greens import units
from greens.access import Right, door
from growin.exports.press import PangoMissing
from growin.exports.season_report import season_report_pdf
from growin.forms.season_report import asked_year
from growin.queries import season_report as queries
from growin.queries.remembered import remembered
from growin.views.statement import as_file


@door(Right.READ)
@require_safe
def page(request, here, green):
    """The season that began in ``?year``, else the newest; where nothing was written the years say so."""
    report = queries.of_green(green, here.club.local_today(), asked_year(request.GET))
    if report is None:
        return redirect("years", here.club.slug, green.pk)
    return render(request, "growin/season_report/page.html", {"green": green, "report": report})


@door(Right.READ)
@require_safe
def as_pdf(request, here, green):
    report = queries.of_green(green, here.club.local_today(), asked_year(request.GET))
    if report is None:
        return redirect("years", here.club.slug, green.pk)
    try:
        return printed(here, [report], f"{here.club.name} {green.name}")
    except PangoMissing:
        shown = {"green": green, "report": report, "is_without_pango": True}
        return render(request, "growin/season_report/page.html", shown, status=503)


@door(Right.READ)
@require_safe
def all_as_pdf(request, here):
    """Every green of the club with something written in that season, one after the other."""
    reports = queries.of_club(here.club, here.club.local_today(), asked_year(request.GET))
    if not reports:
        return redirect("greens", here.club.slug)
    try:
        return printed(here, reports, here.club.name)
    except PangoMissing:
        return render(request, "growin/season_report/without_pango.html", {"reports": reports}, status=503)


def printed(here, reports, named: str):
    """The reports in one file, set once for each change of the record."""
    of = tuple((one.green.pk, one.year.first, one.until) for one in reports)
    what = ("season report", of, units.active())
    pdf = remembered(here.club, what, lambda: season_report_pdf(reports))
    return as_file(pdf, f"{slugify(f'{named} season {reports[0].year.name}')}.pdf")
