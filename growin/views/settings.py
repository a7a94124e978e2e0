"""The constants of the trade as the club has them, and changing one."""

from django.contrib import messages
from django.core.paginator import Paginator
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import setting as actions
from greens.queries import settings as constants
from growin.agronomy.fields import DetailError
from growin.evidence.effect import effects
from growin.forms.settings import SettingSheet
from growin.queries import proposal as proposals
from growin.queries import setting as queries
from growin.queries.threshold import is_looser, words_of

OWN_SHOWN = 10


@door(Right.READ)
def settings(request, here):
    subjects = queries.subjects(here.club, here.club.local_today())
    return render(request, "growin/settings/list.html", {"subjects": subjects, "frozen": frozen(here)})


@door(Right.READ, key=("default", constants.default))
def setting(request, here, default):
    pages = Paginator(constants.of_key(here.club, default.key), OWN_SHOWN)
    shown = {"default": default, "words": words_of(default), "frozen": frozen(here)}
    shown["page"] = pages.get_page(request.GET.get("page"))
    return render(request, "growin/settings/page.html", shown)


@door(Right.MANAGE, key=("default", constants.default))
def change_setting(request, here, default):
    """The first answer shows what the change would do; the second keeps it."""
    today = here.club.local_today()
    form = SettingSheet(here.club, default, today, request.POST or None)
    shown = {"form": form, "default": default, "words": words_of(default), "frozen": frozen(here)}
    before = checked(form, here.club, default) if request.method == "POST" and form.is_valid() else None
    if before is None:
        return render(request, "growin/settings/change.html", shown)
    if "confirmed" in request.POST:
        actions.override(club=here.club, by=here.member, key=default.key, **form.meant())
        messages.success(request, "The new value is kept.")
        return redirect("setting", here.club.slug, default.key)
    shown |= {"before": before, **foreseen(here.club, default, form, before, today)}
    return render(request, "growin/settings/confirm.html", shown)


def frozen(here) -> list:
    """Proposals that hold the criteria of their greens."""
    return list(proposals.open_in(here.club, here.club.local_today()).values())


def checked(form: SettingSheet, club, default) -> float | None:
    """The value that would be replaced; None with the sentences on the form when it cannot be."""
    try:
        return actions.check_override(club=club, key=default.key, **form.meant())
    except DetailError as refused:
        form.take(refused.errors)
        return None


def foreseen(club, default, form: SettingSheet, before: float, today) -> dict:
    meant = form.meant()
    return {
        "meant": meant,
        "loosens": is_looser(default.key, before, meant["value"]),
        "effects": effects(club, default.key, meant["value"], today, meant["green"]),
    }
