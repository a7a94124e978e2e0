"""May it open? One page for the committee."""

from django.shortcuts import render

from greens.access import Right, door
from greens.queries import notice as notices
from growin.evidence.expected import expected
from growin.evidence.readiness import readiness_of
from growin.forms.readiness import AsOf


@door(Right.READ)
def readiness(request, here, green):
    form = AsOf(here.club.local_today(), request.GET or None)
    known = readiness_of(here.club, green, form.day)
    shown = {"green": green, "form": form, "known": known, "today": form.today}
    if known and known.warned:
        shown["own"] = notices.warning_before(here.member, green)
    if known and known.is_laid and not known.play.is_open:
        shown["expected"] = expected(known.verdict, known.establishment, form.day)
        shown["fan"] = shown["expected"] and shown["expected"].fan(
            known.proposal and known.proposal.opening_on
        )
    return render(request, "growin/readiness/page.html", shown)
