"""The club's front page for settings, its particulars and its normals."""

from django.contrib import messages
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import club as actions
from greens.forms.club import FeedingRules, Normals, Particulars
from greens.queries import weather


@door(Right.READ)
def club(request, here):
    return render(request, "greens/club/page.html", {"normals": weather.normals(here.club)})


@door(Right.MANAGE)
def particulars(request, here):
    initial = {name: getattr(here.club, name) for name in Particulars.base_fields}
    form = Particulars(request.POST or None, initial=initial)
    if request.method == "POST" and form.is_valid():
        actions.change_club(club=here.club, by=here.member, **form.cleaned_data)
        messages.success(request, "The club's particulars are kept.")
        return redirect("club", here.club.slug)
    return render(request, "greens/club/particulars.html", {"form": form})


@door(Right.MANAGE)
def feeding_rules(request, here):
    initial = {name: getattr(here.club, name) for name in FeedingRules.base_fields}
    form = FeedingRules(request.POST or None, initial=initial)
    if request.method == "POST" and form.is_valid():
        actions.set_feeding_rules(club=here.club, by=here.member, **form.cleaned_data)
        messages.success(
            request, "The rules for feeding are kept; what was fed before stands as it was judged."
        )
        return redirect("club", here.club.slug)
    return render(request, "greens/club/feeding_rules.html", {"form": form})


@door(Right.MANAGE)
def normals(request, here):
    form = Normals(request.POST or None, initial=weather.normals_as_initial(here.club))
    if request.method == "POST" and form.is_valid():
        actions.set_normals(club=here.club, by=here.member, means_c=form.means_c(), rain_mm=form.rain_mm())
        messages.success(request, "The normals are kept.")
        return redirect("club", here.club.slug)
    return render(request, "greens/club/normals.html", {"form": form})
