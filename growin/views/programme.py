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
from growin.charts.ladder import ladder_svg
from growin.forms.programme import Filter
from growin.queries import facts, months
from growin.queries import ladder as heights_of
from growin.queries import programme as queries


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
    return render(request, "growin/programme/page.html", page | {"ladder": heights_of.ladder(establishment)})


@door(Right.MANAGE)
@require_POST
def draw(request, here, green):
    establishment = rebuild_of(green)
    on, why = here.club.local_today(), request.POST.get("why", "")[:300]
    try:
        drawn = actions.issue_programme(establishment=establishment, by=here.member, on=on, why=why)
        messages.success(request, f"Programme {drawn.number} is drawn. {drawn.difference_words}".strip())
    except NotPossible as refusal:
        messages.error(request, str(refusal))
    return redirect("programme", here.club.slug, green.pk)


@door(Right.READ)
def heights(request, here, green):
    picture = ladder_svg(heights_of.ladder(rebuild_of(green)), narrow="narrow" in request.GET)
    return HttpResponse(picture, content_type="image/svg+xml")


@door(Right.READ)
def versions(request, here, green):
    pages = Paginator(queries.versions(rebuild_of(green)), 30)
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
