"""What stays on a phone: what waits there, the pages that go with it, the worker that keeps them."""

from functools import cache
from hashlib import sha256
from json import dumps
from pathlib import Path

from django.contrib.staticfiles import finders
from django.http import HttpResponse, JsonResponse
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse

from greens.access import Right, door
from growin.queries import pocket as queries

#: What every page is drawn with; the worker keeps it beside the pages.
KINDS = {".css", ".js", ".woff2", ".svg", ".png"}
WITHOUT_SIGNAL, WORKER = "no_signal", "greens/js/worker.js"
SENDS = "greens/js/pocket/behind.js"


@door(Right.LOG)
def pocket(request, here):
    return render(request, "growin/pocket/page.html")


@door(Right.LOG)
def pages(request, here):
    digest = queries.digest(here.club, here.member, version())
    member = str(here.member.pk)
    return JsonResponse({"digest": digest, "pages": queries.pages(here.club), "member": member})


def no_signal(request):
    """What is shown where a page is asked for that the phone has no copy of; the same for everybody."""
    return render(request, "growin/pocket/no_signal.html")


def worker(request):
    """The service worker, at the root so that it serves every page; it says itself what it keeps.

    With ``?modules`` it also sends what waits, for browsers that wake it."""
    files = [reverse(WITHOUT_SIGNAL), *(static(name) for name in drawn_with())]
    keeps = {"version": version(), "files": files, "no_signal": reverse(WITHOUT_SIGNAL)}
    source = Path(finders.find(WORKER)).read_text()
    sends = f'import {{ sendBehind }} from "{static(SENDS)}";\n' if "modules" in request.GET else ""
    whole = f"{sends}const KEEPS = {dumps(keeps)};\n{source}"
    answer = HttpResponse(whole, content_type="text/javascript; charset=utf-8")
    answer["Cache-Control"] = "no-cache"
    return answer


@cache
def drawn_with() -> tuple[str, ...]:
    """Names of the static files that pages are drawn with."""
    here = Path(finders.find("greens/mark.svg")).parent
    return tuple(
        sorted(
            f"greens/{one.relative_to(here)}"
            for one in here.rglob("*")
            if one.suffix in KINDS and one.name != Path(WORKER).name
        )
    )


@cache
def version() -> str:
    """A digest of every file that pages are drawn with."""
    whole = sha256()
    for name in drawn_with():
        whole.update(name.encode() + Path(finders.find(name)).read_bytes())
    return whole.hexdigest()[:12]
