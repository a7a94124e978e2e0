"""What a green may still have: nutrients and sand."""

from django.http import Http404, HttpResponse
from django.shortcuts import render

from greens.access import Right, door
from greens.queries import greens
from growin.charts.budget import budget_svg
from growin.forms.budget import asked
from growin.queries import budget as queries
from growin.queries import sand_budget, season


@door(Right.READ)
def budgets(request, here):
    on, shown = here.club.local_today(), asked(request.GET)
    context = {
        "asked": shown,
        "elements": queries.SHOWN.items(),
        "rows": [(one, one.figures(shown.factor)) for one in queries.of_club(here.club, shown.element, on)],
        "sands": sand_budget.of_club(here.club, on),
    }
    return render(request, "growin/budget/list.html", context)


@door(Right.READ)
def budget(request, here, green):
    on, shown = here.club.local_today(), asked(request.GET)
    rebuilt = greens.current_establishment(green)
    known = rebuilt and queries.of_rebuild(rebuilt, shown.element, on)
    context = {"green": green, "asked": shown, "elements": queries.SHOWN.items(), "known": known}
    if known:
        context |= {"figures": known.figures(shown.factor), "feeds": known.feeds(shown.factor)}
        context["sand"] = sand_budget.of_rebuild(rebuilt, on)
        context["suits"] = sand_budget.suits_of(rebuilt, on)
        context["growth"] = season.season(here.club, on)
    return render(request, "growin/budget/page.html", context)


@door(Right.READ)
def picture(request, here, green, element):
    """The running total as an image; ``?narrow`` for a phone."""
    rebuilt, on = greens.current_establishment(green), here.club.local_today()
    known = queries.of_rebuild(rebuilt, element, on) if rebuilt and element in queries.SHOWN else None
    if known is None:
        raise Http404
    return HttpResponse(budget_svg(known, "narrow" in request.GET), content_type="image/svg+xml")
