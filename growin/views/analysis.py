"""What laboratories say of soil and water, and what that asks for."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import analysis as actions
from greens.forms.analysis import AnalysisSheet
from greens.queries import analysis as kept
from growin.agronomy.fields import DetailError
from growin.queries import analysis as queries

ONE = ("analysis", kept.one)
SHEETS_A_PAGE = 5


@door(Right.READ)
def analyses(request, here, green):
    known = queries.of_green(green, here.club.local_today())
    page = Paginator(known.rows, SHEETS_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "growin/analysis/list.html", {"green": green, "known": known, "page": page})


@door(Right.MANAGE)
def add(request, here, green, sheet):
    form = AnalysisSheet(request.POST or None, kind=sheet, today=here.club.local_today())
    if request.method == "POST" and form.is_valid():
        try:
            actions.keep_analysis(green=green, by=here.member, **form.values())
        except DetailError as refused:
            form.take(refused.errors)
        else:
            messages.success(request, "The sheet is kept.")
            return redirect("analyses", here.club.slug, green.pk)
    return render(request, "growin/analysis/add.html", {"form": form, "green": green, "sheet": sheet})


@door(Right.MANAGE, analysis_id=ONE)
@require_POST
def take_back(request, here, analysis):
    actions.take_back(analysis=analysis, by=here.member)
    messages.success(request, "Taken back; it counts no more.")
    return redirect("analyses", here.club.slug, analysis.green_id)
