"""Doors: who may see and do what. Nothing else decides access.

Outsiders get 404, so that nobody learns what exists; members without the right get 403.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from functools import wraps

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import ObjectDoesNotExist, PermissionDenied
from django.db.models import QuerySet
from django.http import Http404
from django.utils import timezone
from django.views.decorators.cache import never_cache

from greens import units
from greens.choices import Role
from greens.models import Club, Membership, Token
from greens.queries import club as clubs
from greens.queries import diary, files, greens, people, readings, record, store
from greens.queries import token as tokens
from greens.validators.numbers import whole_number

#: What the session calls the one whose work it is, and what buttons and forms call them.
DOER = "doer"
SAID_IN = (DOER, "done_by", "taken_by")
#: So long a shared device takes the work to be the same one's (our judgement: longer than a round of logging,
#: shorter than a break).
NAMED_FOR_S = 30 * 60
CLOSING = "The club is being closed: its record can be read and taken away, and nothing is written any more."


class Right(Enum):
    """What a member may do in a club, and which roles may."""

    READ = frozenset({Role.HEAD, Role.STAFF, Role.COMMITTEE, Role.ADVISER})
    LOG = frozenset({Role.HEAD, Role.STAFF})
    MANAGE = frozenset({Role.HEAD})
    DECIDE = frozenset({Role.COMMITTEE})
    CLOSE = frozenset({Role.HEAD, Role.COMMITTEE})
    ADVISE = frozenset({Role.ADVISER})


@dataclass(frozen=True)
class Here:
    """Where a request stands: the club, and as whom."""

    club: Club
    member: Membership
    named: Membership | None = None

    @property
    def doer(self) -> Membership | None:
        """Whose work is logged: the member's own; at a shared device whoever was named, or nobody yet."""
        return self.named if self.member.is_shared else self.member

    @property
    def workers(self) -> QuerySet[Membership]:
        """Those whose work it can be."""
        return people.workers(self.club)

    def may(self, right: Right) -> bool:
        return self.member.role in right.value

    def may_correct(self, row) -> bool:
        """Head greenkeepers correct any entry or reading; greenstaff those they logged."""
        return self.may(Right.MANAGE) or (self.may(Right.LOG) and row.logged_by_id == self.member.pk)

    def must_correct(self, row) -> None:
        """Shut the door on who may not correct the row."""
        if not self.may_correct(row):
            raise PermissionDenied

    def must_be_one_person(self) -> None:
        """Shut the door on a device that several people use."""
        if self.member.is_shared:
            raise PermissionDenied

    @property
    def manages(self) -> bool:
        return self.may(Right.MANAGE)

    @property
    def logs(self) -> bool:
        return self.may(Right.LOG)

    @property
    def decides(self) -> bool:
        return self.may(Right.DECIDE)

    @property
    def closes(self) -> bool:
        return self.may(Right.CLOSE)

    @property
    def advises(self) -> bool:
        return self.may(Right.ADVISE)


# How the id in an address becomes a row of this club: keyword in the address → name in the view, finder.
FINDERS: dict[str, tuple[str, Callable]] = {
    "green_id": ("green", greens.one),
    "establishment_id": ("establishment", record.establishment),
    "material_id": ("material", record.material),
    "defect_id": ("defect", record.defect),
    "file_id": ("stored_file", files.one),
    "member_id": ("membership", lambda club, pk: people.current(club).get(pk=pk)),
    "product_id": ("product", store.product),
    "entry_id": ("entry", diary.one),
    "reading_id": ("reading_set", readings.one),
}


def door(right: Right, **finders: tuple[str, Callable]) -> Callable:
    """Let members with ``right`` into a page; ids in the address become rows of the club.

    The view is called as ``view(request, here, **rows)``. ``finders`` adds to FINDERS for one view.
    """

    def hung(view):
        @never_cache
        @wraps(view)
        def guarded(request, club_slug: str, **address):
            if not request.user.is_authenticated:
                return redirect_to_login(request.get_full_path())
            here = enter(request, club_slug)
            rows = found(here.club, address, FINDERS | finders)
            if not here.may(right):
                raise PermissionDenied
            must_be_open(request, here.club, view)
            with units.shown_in(units_of(request, here.club)):
                return drawn(view(request, here, **rows))

        guarded.right = right
        return guarded

    return hung


def while_closing(view: Callable) -> Callable:
    """Hang this under the door of a page that is heard though the club is being closed."""
    view.while_closing = True
    return view


def must_be_open(request, club: Club, view: Callable) -> None:
    """Shut the door on whoever would write into a club that is being closed."""
    if club.closes_on and request.method == "POST" and not getattr(view, "while_closing", False):
        raise PermissionDenied(CLOSING)


def drawn(response):
    """A page that was to be drawn late is drawn here, while the club's units hold."""
    return response.render() if hasattr(response, "render") else response


class NoToken(Exception):
    """A program asked without a token that still opens something."""


def token_door(right: Right, hear: Callable[[Token], None], **finders: tuple[str, Callable]) -> Callable:
    """Let programs in whose token is of a member with ``right``; a session opens nothing here.

    ``hear(token)`` may refuse, by raising, before anything is looked up. Raises NoToken without a token,
    Http404 for another club than the token's; else as :func:`door`.
    """

    def hung(view):
        @wraps(view)
        def guarded(request, club_slug: str, **address):
            token = bearer(request)
            if token is None:
                raise NoToken
            hear(token)
            if token.member.club.slug != club_slug:
                raise Http404
            timezone.activate(token.member.club.zone)
            request.here = here = Here(token.member.club, token.member)
            rows = found(here.club, address, FINDERS | finders)
            if not here.may(right):
                raise PermissionDenied
            return view(request, here, **rows)

        guarded.right, guarded.by_token = right, True
        return guarded

    return hung


def bearer(request) -> Token | None:
    """The token that a request shows in its head (RFC 6750, 2.1)."""
    scheme, _, secret = request.headers.get("Authorization", "").partition(" ")
    return tokens.of_secret(secret.strip()) if scheme.lower() == "bearer" else None


def enter(request, club_slug: str) -> Here:
    """The member's place in the club of the address; sets the club's local time for the request."""
    member = clubs.membership(request.user, club_slug)
    if member is None:
        raise Http404
    timezone.activate(member.club.zone)
    request.here = Here(member.club, member, named_at(request, member) if member.is_shared else None)
    return request.here


def named_at(request, device: Membership) -> Membership | None:
    """Whose work a shared device logs: named in this very form, or less than half an hour ago."""
    sent = next((pk for name in SAID_IN if (pk := whole_number(request.POST.get(name, "")))), None)
    if sent and (doer := people.workers(device.club).filter(pk=sent).first()):
        request.session[DOER] = {"device": device.pk, "doer": doer.pk, "at": timezone.now().timestamp()}
        return doer
    kept = request.session.get(DOER)
    if not kept or kept["device"] != device.pk or timezone.now().timestamp() - kept["at"] >= NAMED_FOR_S:
        return None
    return people.workers(device.club).filter(pk=kept["doer"]).first()


def units_of(request, club: Club) -> str:
    """Those in which the page speaks: the club's, or what a form that was open says it was typed in."""
    sent = request.POST or request.GET
    return units.asked(sent.get(units.TYPED_IN), club.units)


def found(club: Club, address: dict, finders: dict) -> dict:
    """Rows for the ids in the address; one that is not the club's does not exist."""
    try:
        return dict(resolved(club, key, value, finders) for key, value in address.items())
    except ObjectDoesNotExist:
        raise Http404 from None


def resolved(club: Club, key: str, value, finders: dict) -> tuple:
    name, finder = finders.get(key, (key, None))
    return name, finder(club, value) if finder else value
