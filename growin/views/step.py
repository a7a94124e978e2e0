"""One step of a programme, and the head greenkeeper's hand on it."""

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions.people import NotPossible
from greens.queries import weather
from growin.actions import programme as actions
from growin.agronomy.feeding import TRIALS
from growin.forms.programme import AddStep, ChangeStep
from growin.queries import line
from growin.queries import programme as queries
from growin.views.programme import rebuild_of

KEY = ("key", queries.key_of_club)


def standing_of(here, green, key: str):
    """The step of that key in the programme in force; without one there is no such page."""
    found = queries.step(rebuild_of(green), key, here.club.local_today())
    if found is None:
        raise Http404
    return found


@door(Right.READ, key=KEY)
def step(request, here, green, key):
    standing = standing_of(here, green, key)
    shared = line.round_of(
        here.club, here.club.local_today(), weather.day(here.club, here.club.local_today())
    )
    (one,) = line.lines([standing], shared, queries.current(standing.establishment))
    page = {
        "green": green,
        "line": one,
        "step": one.step,
        "trials": TRIALS if one.step.kind == "feed" else (),
    }
    return render(request, "growin/programme/step.html", page)


@door(Right.MANAGE, key=KEY)
def change(request, here, green, key):
    standing = standing_of(here, green, key)
    form = ChangeStep(standing.step, request.POST or None)
    where = {"establishment": standing.establishment, "key": key}
    if request.method == "POST" and form.is_valid() and kept(form, actions.change_step, here, **where):
        messages.success(
            request, "The step is changed by hand; it stays so when the programme is drawn again."
        )
        return redirect("step", here.club.slug, green.pk, key)
    page = {"green": green, "form": form, "step": standing.step}
    return render(request, "growin/programme/change.html", page)


@door(Right.MANAGE)
def add(request, here, green):
    establishment = rebuild_of(green)
    form = AddStep(request.POST or None)
    where = {"establishment": establishment}
    if request.method == "POST" and form.is_valid() and kept(form, actions.add_step, here, **where):
        messages.success(request, f"“{form.cleaned_data['what']}” stands in the programme.")
        return redirect("programme", here.club.slug, green.pk)
    return render(request, "growin/programme/add.html", {"green": green, "form": form})


def kept(form, deed, here, **where) -> bool:
    """Whether the plan was kept; what it asks or refuses stands in the form."""
    try:
        deed(by=here.member, on=here.club.local_today(), **where, **form.values())
    except actions.Doubtful as doubt:
        form.ask(doubt.sentences)
        return False
    except NotPossible as refusal:
        form.add_error(None, str(refusal))
        return False
    return True


@door(Right.MANAGE, key=KEY)
@require_POST
def drop(request, here, green, key):
    return put_aside(request, here, green, key, actions.drop_step)


@door(Right.MANAGE, key=KEY)
@require_POST
def restore(request, here, green, key):
    return put_aside(request, here, green, key, actions.restore_step)


def put_aside(request, here, green, key, deed):
    standing = standing_of(here, green, key)
    try:
        deed(establishment=standing.establishment, key=key, by=here.member, on=here.club.local_today())
        messages.success(
            request, f"{'Dropped' if deed is actions.drop_step else 'Taken up again'}: {standing.step}."
        )
    except NotPossible as refusal:
        messages.error(request, str(refusal))
    return redirect("step", here.club.slug, green.pk, key)
