"""Readings: what to read, taking a set, what it says, correcting it, taking it back."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.template.response import TemplateResponse
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import readings as kept_readings
from greens.actions.people import NotPossible
from greens.queries import arrival as arrivals
from greens.queries import readings as queries
from greens.queries import settings as constants
from greens.views.arrival import from_a_pocket
from growin.actions import readings as actions
from growin.agronomy.fields import DetailError
from growin.agronomy.measures import MEASURES
from growin.charts.reading_line import reading_line_svg
from growin.charts.set_map import set_map_svg
from growin.evidence import due
from growin.forms.readings import ReadingSheet, TakeOnAGreen, TakeSheet, as_written, fresh
from growin.queries import reading_line as lines
from growin.queries import set_map as maps

IN_WHOLE = ("reading_set", queries.in_whole)


@door(Right.READ)
def readings(request, here, green):
    chosen = request.GET.get("measure", "")
    pages = Paginator(queries.of_measure(green, chosen), 25)
    measures = [(key, one.words) for key, one in MEASURES.items()]
    page = pages.get_page(request.GET.get("page"))
    in_force = constants.in_force(here.club, here.club.local_today(), green)
    rows = [(row, row.in_short(in_force)) for row in page]
    shown = {"green": green, "page": page, "rows": rows, "measures": measures, "chosen": chosen}
    if chosen in MEASURES:
        shown["line"] = lines.reading_line(green, MEASURES[chosen], here.club.local_today())
    return render(request, "growin/readings/list.html", shown)


@door(Right.READ, measure=("measure", queries.measure))
def picture(request, here, green, measure):
    """Readings of a measure on their clock as an image; ``?narrow`` for a phone."""
    line = lines.reading_line(green, measure, here.club.local_today())
    if line is None:
        raise Http404
    return HttpResponse(reading_line_svg(line, "narrow" in request.GET), content_type="image/svg+xml")


@door(Right.LOG)
def choose(request, here, green):
    sections = due.sections(green, here.club.local_today())
    return render(request, "growin/readings/choose.html", {"green": green, "sections": sections})


@door(Right.LOG)
def choose_any(request, here):
    """The measures of the whole club; the green is chosen with the values."""
    today = here.club.local_today()
    shown = {"sections": due.sections_of_club(here.club, today), "green": request.GET.get("green", "")}
    return render(request, "growin/readings/choose_any.html", shown)


@door(Right.LOG, measure=("measure", queries.measure))
@from_a_pocket
def take(request, here, green, measure):
    today = here.club.local_today()
    asked = due.asked(green, measure, today)
    initial = fresh(today, here.doer, queries.last_of(green, measure))
    sheet = TakeSheet(
        here.club, measure, asked.count, *posted(request), initial=initial, asked={green.pk: asked}
    )
    shown = {"green": green, "measure": measure, "serves": asked.serves}
    return answer_to(request, here, sheet, shown, green=green)


@door(Right.LOG, measure=("measure", queries.measure))
@from_a_pocket
def take_on_a_green(request, here, measure):
    today = here.club.local_today()
    asked = due.asked_on_each(here.club, measure, today)
    initial = fresh(today, here.doer, None) | {"green": request.GET.get("green", "")}
    count = max([measure.usual_count, *(one.count for one in asked.values())])
    sheet = TakeOnAGreen(here.club, measure, count, *posted(request), initial=initial, asked=asked)
    return answer_to(request, here, sheet, {"measure": measure})


def answer_to(request, here, sheet, shown, **known):
    """The set that was kept of a new sheet, or the sheet once more."""
    known |= {"by": here.member, "measure": shown["measure"].key}
    kept = take_from(sheet, actions.take_readings, answers=request.GET.get("step", ""), **known)
    if kept:
        messages.success(request, "The readings are kept.")
        return redirect("reading", here.club.slug, kept.pk)
    return TemplateResponse(request, "growin/readings/take.html", shown | {"form": again(sheet)})


@door(Right.READ, reading_id=IN_WHOLE)
def reading(request, here, reading_set):
    today = here.club.local_today()
    in_force = constants.in_force(here.club, today, reading_set.green)
    shown = {
        "reading_set": reading_set,
        "in_short": reading_set.in_short(in_force),
        "arrival": arrivals.of_row(here.club, reading_set.client_id),
        "finding": due.finding_for(reading_set, today),
        "offered": due.steps_answered(reading_set),
        "may_correct": here.may_correct(reading_set),
        "map": maps.set_map(reading_set, in_force),
    }
    return render(request, "growin/readings/page.html", shown)


@door(Right.READ)
def map_picture(request, here, reading_set):
    """The values of a set on the outline of their green, as an image."""
    in_force = constants.in_force(here.club, here.club.local_today(), reading_set.green)
    drawn = maps.set_map(reading_set, in_force)
    if drawn is None:
        raise Http404
    return HttpResponse(set_map_svg(drawn), content_type="image/svg+xml")


@door(Right.LOG, reading_id=IN_WHOLE)
def correct(request, here, reading_set):
    here.must_correct(reading_set)
    count = len(reading_set.values)
    initial = as_written(reading_set)
    asked = {reading_set.green_id: due.asked(reading_set.green, reading_set.kind, here.club.local_today())}
    sheet = ReadingSheet(here.club, reading_set.kind, count, *posted(request), initial=initial, asked=asked)
    kept = take_from(sheet, actions.correct_readings, reading_set=reading_set, by=here.member)
    if kept:
        messages.success(request, "The correction is kept.")
        return redirect("reading", here.club.slug, kept.pk)
    shown = {"reading_set": reading_set, "measure": reading_set.kind, "form": again(sheet)}
    return render(request, "growin/readings/correct.html", shown)


@door(Right.LOG)
@require_POST
def take_back(request, here, reading_set):
    here.must_correct(reading_set)
    kept_readings.take_back(reading_set=reading_set, by=here.member)
    messages.success(request, "The set is taken back; it no longer counts.")
    return redirect("reading", here.club.slug, reading_set.pk)


@door(Right.LOG, reading_id=IN_WHOLE)
@require_POST
def answer(request, here, reading_set):
    here.must_correct(reading_set)
    try:
        actions.tick_step(reading_set=reading_set, by=here.member, key=request.POST.get("key", ""))
        messages.success(request, "The step of the programme is ticked.")
    except NotPossible as refused:
        messages.error(request, str(refused))
    return redirect("reading", here.club.slug, reading_set.pk)


def posted(request) -> tuple:
    return (request.POST, request.FILES) if request.method == "POST" else (None, None)


def take_from(sheet: ReadingSheet, action, **known):
    """What the action made of the sheet; None while there is nothing to keep or something is wrong."""
    if sheet.wants_more_boxes or not sheet.is_valid():
        return None
    try:
        return action(**known, **sheet.kept())
    except kept_readings.Conflict as refused:
        sheet.stands = refused.reading_set
        sheet.take(refused.errors)
    except DetailError as refused:
        sheet.take(refused.errors)
    return None


def again(sheet: ReadingSheet) -> ReadingSheet:
    return sheet.with_more_boxes() if sheet.wants_more_boxes else sheet
