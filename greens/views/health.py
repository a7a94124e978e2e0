"""What watches the site asks: is the process alive, and can it do its work?

Neither needs a session, a host name or a club; neither says more than a sentence for each trouble.
"""

from django.http import HttpResponse

from greens.queries import health


def alive(request) -> HttpResponse:
    """The process answers; nothing else is asked."""
    return plain("alive")


def ready(request) -> HttpResponse:
    """Whether a visitor would find everything at work; 503 with a sentence for each thing that is not."""
    found = list(health.troubles())
    return plain("\n".join(found), status=503) if found else plain("ready")


def plain(words: str, status: int = 200) -> HttpResponse:
    heads = {"Cache-Control": "no-store", "X-Content-Type-Options": "nosniff"}
    return HttpResponse(f"{words}\n", "text/plain; charset=utf-8", status=status, headers=heads)
