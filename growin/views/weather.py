"""Weather by hand: one day's figures, and the last 30 days with their gaps."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import weather as actions
from greens.queries import weather as queries
from growin.agronomy.fields import DetailError
from growin.agronomy.plain_words import day
from growin.charts.season import season_svg
from growin.forms.readiness import AsOf
from growin.forms.weather import WeatherSheet, as_written
from growin.queries import season as seasons


@door(Right.READ)
def weather(request, here):
    today = here.club.local_today()
    shown = {
        "days": queries.last_days(here.club, today),
        "today": today,
        "season": seasons.season(here.club, today),
    }
    return render(request, "growin/weather/list.html", shown)


@door(Right.READ)
def season_picture(request, here):
    """The season as an image; ``?narrow`` for a phone."""
    season = seasons.season(here.club, here.club.local_today())
    if season is None:
        raise Http404
    return HttpResponse(season_svg(season, narrow="narrow" in request.GET), content_type="image/svg+xml")


@door(Right.LOG)
def weather_day(request, here):
    today = here.club.local_today()
    on = AsOf(today, request.GET or None).day
    initial = as_written(on, queries.day(here.club, on))
    form = WeatherSheet(
        today, request.POST or None, initial=initial, known_days=lambda one: queries.day(here.club, one)
    )
    if request.method == "POST" and form.is_valid() and kept(form, here):
        messages.success(request, f"The weather of {day(form.cleaned_data['on'])} is kept.")
        return redirect("weather", here.club.slug)
    return render(request, "growin/weather/day.html", {"form": form, "on": on})


def kept(form: WeatherSheet, here) -> bool:
    try:
        actions.record_day(club=here.club, by=here.member, **form.cleaned_data)
    except DetailError as refused:
        form.take(refused.errors)
        return False
    return True
