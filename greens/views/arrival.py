"""Forms that a phone kept while there was no signal: taken by the same pages, told in JSON.

What a phone sends is the page's own form under the page's own address, with a few lines in its head:
whose it is, its number, when it was written by the phone's clock and what that clock says now.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import wraps
from hashlib import sha256
from json import dumps
from uuid import UUID

from django.contrib import messages
from django.db import transaction
from django.http import Http404, JsonResponse

from greens.access import Here
from greens.actions import arrival as actions

NOW, LATER = "now", "later"
KEPT, REFUSED, CONFLICT, ANOTHERS, UNREADABLE = "kept", "refused", "conflict", "another's", "unreadable"
STATUS = {KEPT: 200, UNREADABLE: 400, ANOTHERS: 403, CONFLICT: 409, REFUSED: 422}
NOT_CONTENT = {"csrfmiddlewaretoken"}


@dataclass(frozen=True)
class Slip:
    """What the head of a request says of a form that was kept on a phone; ``when`` is now or later."""

    when: str
    client_id: UUID
    member_pk: int
    kept_at: datetime | None
    clock: datetime | None


def from_a_pocket(view: Callable) -> Callable:
    """Let a phone send this page's form too; hung inside the door, so that the door decides who may.

    The view answers with a redirect once something is kept, else with a page that holds its ``form``,
    or with a message of an error.
    """

    @wraps(view)
    def taken(request, here: Here, **rows):
        if "X-Pocket" not in request.headers:
            return view(request, here, **rows)
        try:
            slip = read(request.headers)
        except ValueError:
            return told(UNREADABLE, "The phone said neither whose this is nor its number; nothing was kept.")
        if slip.member_pk != here.member.pk:
            return told(ANOTHERS, f"This was kept by somebody else; {here.member.name} cannot send it.")
        return take(request, here, slip, lambda: view(request, here, **rows))

    taken.takes_slips = True
    return taken


def read(headers) -> Slip:
    """Raises ValueError for what cannot be read."""
    return Slip(
        when=LATER if headers["X-Pocket"] == LATER else NOW,
        client_id=UUID(headers.get("X-Pocket-Id", "")),
        member_pk=int(headers.get("X-Pocket-Member", "")),
        kept_at=instant(headers.get("X-Pocket-Kept")),
        clock=instant(headers.get("X-Pocket-Clock")),
    )


def instant(text: str | None) -> datetime | None:
    """Raises ValueError for what is no moment, or has no zone."""
    moment = datetime.fromisoformat(text) if text else None
    if moment is not None and moment.tzinfo is None:
        raise ValueError(text)
    return moment


def take(request, here: Here, slip: Slip, ask: Callable) -> JsonResponse:
    """What the page makes of it, in one transaction with the note that it came."""
    known = {"club": here.club, "by": here.member, "client_id": slip.client_id, "kept_at": slip.kept_at}
    ahead_s = actions.seconds_ahead(slip.clock)
    try:
        with transaction.atomic():
            row, is_first = actions.take_in(content=digest(request), ahead_s=ahead_s, **known)
            wrongs = answered(request, slip, row, ask) if is_first else []
            if wrongs:
                transaction.set_rollback(True)
    except actions.OtherContent as other:
        return told(CONFLICT, f"{other} What came first stands.", page=other.arrival.page)
    if wrongs:
        return JsonResponse({"state": REFUSED, "wrongs": wrongs}, status=STATUS[REFUSED])
    return JsonResponse({"state": KEPT, "page": row.page, "is_first": is_first, "ahead_s": ahead_s})


def answered(request, slip: Slip, row, ask: Callable) -> list[tuple[str, str]]:
    """Ask the page; what is wrong, or nothing once it is kept."""
    try:
        response = ask()
    except Http404:
        return [("", "What this was for is not in the record any more; log it anew.")]
    wrongs = wrongs_in(request, slip, response)
    if not wrongs:
        actions.answer(row, response.url)
    return wrongs


def wrongs_in(request, slip: Slip, response) -> list[tuple[str, str]]:
    """Sentences that refuse; a page that is shown at once says its own good news."""
    if not hasattr(response, "url"):
        shown = response.context_data
        return shown["wrongs"] if "wrongs" in shown else shown["form"].wrongs()
    heard = messages.get_messages(request)
    wrongs = [("", str(one)) for one in heard if one.level >= messages.ERROR]
    heard.used = bool(wrongs) or slip.when == LATER
    return wrongs


def digest(request) -> str:
    """Of the address and everything written, in whatever order; photographs come after their entry."""
    written = {key: values for key, values in request.POST.lists() if key not in NOT_CONTENT}
    return sha256(dumps([request.get_full_path(), sorted(written.items())]).encode()).hexdigest()


def told(state: str, sentence: str, **more) -> JsonResponse:
    return JsonResponse({"state": state, "wrongs": [("", sentence)], **more}, status=STATUS[state])
