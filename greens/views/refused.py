"""Pages for what is not there, not allowed, or broken: each says what to do."""

from django.shortcuts import render

from greens.access import CLOSING


def refused(request, status: int, title: str, words: str):
    return render(request, "greens/refused/page.html", {"title": title, "words": words}, status=status)


def not_found(request, exception=None):
    return refused(
        request,
        404,
        "There is no such page",
        "The address may be mistyped, or it belongs to another club. Go back to your club's front page.",
    )


def not_allowed(request, exception=None):
    if str(exception or "") == CLOSING:
        return refused(request, 403, "Nothing was kept", CLOSING)
    return refused(
        request,
        403,
        "Your role does not allow this",
        "Ask the head greenkeeper of the club if you should be able to do it.",
    )


def stale_form(request, reason=""):
    return refused(
        request,
        403,
        "This form was too old to be kept",
        "Nothing was saved. Go back, load the page again and send it once more.",
    )


def broken(request):
    return refused(
        request,
        500,
        "Something failed on our side",
        "Nothing was half saved. Try again in a minute; if it fails again, tell whoever runs this site.",
    )
