"""A green's programme: what comes, month by month, and how it came to be."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions.people import NotPossible
from greens.queries import greens
from growin.actions import programme as actions
from growin.agronomy.feeding import TRIALS
from growin.agronomy.impossible import ImpossibleValue
from growin.charts.ladder import ladder_svg
from growin.forms.programme import Filter
from growin.forms.redraw import Accept
from growin.queries import facts, lag, months, run_out
from growin.queries import ladder as heights_of
from growin.queries import programme as queries
from growin.queries import redraw as redraw_queries

VERSIONS_SHOWN = 10
KEPT_WORDS = f"You are not asked again for {lag.KEPT_FOR.days} days; draw it again here whenever you like."


@door(Right.READ)
def programme(request, here, green):
    establishment = greens.current_establishment(green)
    current = establishment and queries.current(establishment)
    if current is None:
        wanting = (
            facts.missing(establishment) if establishment else ["Enter the rebuild of this green first."]
        )
        return render(request, "growin/programme/none.html", {"green": green, "wanting": wanting})
    filtered = Filter(queries.kinds(establishment), request.GET or None)
    asked = request.GET.get("month", "")
    page = months.page_of(establishment, current, here.club.local_today(), filtered.chosen(), asked)
    page |= {"green": green, "programme": current, "filter": filtered, "trials": TRIALS}
    if here.manages:
        page["lags"] = lag.lags(here.club, [establishment], here.club.local_today())
        page["run_out"] = run_out.run_out(here.club, [establishment], here.club.local_today())
    return render(request, "growin/programme/page.html", page | {"ladder": heights_of.ladder(establishment)})


@door(Right.MANAGE)
@require_POST
def draw(request, here, green):
    """The first drawing; a programme in force is drawn again by way of what would move."""
    establishment = rebuild_of(green)
    if queries.current(establishment):
        return redirect("redraw", here.club.slug, green.pk)
    issue(request, here, establishment, request.POST.get("why", ""))
    return redirect("programme", here.club.slug, green.pk)


@door(Right.MANAGE)
def redraw(request, here, green):
    """Old against new before anything is issued; what is accepted is what was shown."""
    establishment, on = rebuild_of(green), here.club.local_today()
    try:
        shown = redraw_queries.of(establishment, on)
    except ImpossibleValue as refusal:
        messages.error(request, str(refusal))
        return redirect("programme", here.club.slug, green.pk)
    if shown is None:
        return redirect("programme", here.club.slug, green.pk)
    if "keep" in request.POST:
        kept = actions.keep_programme(establishment=establishment, by=here.member, on=on)
        messages.success(request, f"Programme {kept.number} is kept as it is. {KEPT_WORDS}")
        return redirect("programme", here.club.slug, green.pk)
    form = Accept(shown, request.POST or None)
    if form.is_of_what_was_shown:
        issue(request, here, establishment, form.cleaned_data["why"])
        return redirect("programme", here.club.slug, green.pk)
    if request.method == "POST" and form.is_valid():
        messages.error(
            request, "Something has changed since this page was opened: look at the drawing again."
        )
        form = Accept(shown)
    return render(request, "growin/programme/redraw.html", {"green": green, "shown": shown, "form": form})


def issue(request, here, establishment, why: str) -> None:
    try:
        drawn = actions.issue_programme(
            establishment=establishment, by=here.member, on=here.club.local_today(), why=why
        )
        messages.success(request, f"Programme {drawn.number} is drawn. {drawn.difference_words}".strip())
    except NotPossible as refusal:
        messages.error(request, str(refusal))


@door(Right.READ)
def heights(request, here, green):
    picture = ladder_svg(heights_of.ladder(rebuild_of(green)), narrow="narrow" in request.GET)
    return HttpResponse(picture, content_type="image/svg+xml")


@door(Right.READ)
def versions(request, here, green):
    pages = Paginator(queries.versions(rebuild_of(green)), VERSIONS_SHOWN)
    page = pages.get_page(request.GET.get("page"))
    return render(request, "growin/programme/versions.html", {"green": green, "page": page})


@door(Right.READ)
def version(request, here, green, number):
    chosen = queries.version(rebuild_of(green), number)
    if chosen is None:
        raise Http404
    page = {"green": green, "programme": chosen, "steps": queries.steps_of(chosen)}
    return render(request, "growin/programme/version.html", page)


def rebuild_of(green):
    """The current rebuild of a green; without one there is no such page."""
    establishment = greens.current_establishment(green)
    if establishment is None:
        raise Http404
    return establishment
