"""Requests, counted and timed for whoever watches the site; only where a token for reading them is set.

Every process keeps its counts in files of its own in ``METRICS_DIR``; who is asked adds up all of them, so
that any number of processes of one machine or container tells one story. The files of a process that ended
stay, since counts may only grow, until they are a day old.
"""

import os
import time
from contextlib import suppress
from pathlib import Path

from django.conf import settings
from prometheus_client import Counter, Histogram

A_DAY_S = 86_400
METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
SECONDS = (0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10)

REQUESTS = Counter("greens_requests", "Requests answered", ["method", "view", "status"])
TOOK = Histogram("greens_request_seconds", "Seconds until the answer began", ["view"], buckets=SECONDS)


def counted(get_response):
    """Counts and times every request that reaches a page; static files and machines' questions are none."""
    forget_the_dead(settings.METRICS_DIR)

    def answer(request):
        began = time.perf_counter()
        response = get_response(request)
        view = name_of(request)
        REQUESTS.labels(method_of(request), view, response.status_code).inc()
        TOOK.labels(view).observe(time.perf_counter() - began)
        return response

    return answer


def name_of(request) -> str:
    """The name of the address, never the address itself: there are few of them and they hold no secret."""
    match = getattr(request, "resolver_match", None)
    return match.url_name if match and match.url_name else "none"


def method_of(request) -> str:
    """Whoever invents a method shall not make a row."""
    return request.method if request.method in METHODS else "other"


def forget_the_dead(folder: Path) -> None:
    """Remove files that nobody has written for a day and whose process is gone."""
    for file in folder.glob("*_*.db"):
        with suppress(OSError):
            if time.time() - file.stat().st_mtime > A_DAY_S and not lives(file.stem.rpartition("_")[2]):
                file.unlink()


def lives(pid: str) -> bool:
    try:
        os.kill(int(pid), 0)
    except ProcessLookupError:
        return False
    except (PermissionError, ValueError):
        return True
    return True
