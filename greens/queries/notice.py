"""What members are told."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Q, QuerySet

from greens.choices import NoticeKind
from greens.models import Club, Green, Membership, Notice

#: What stands on the day's page in full: what nobody should begin the day without.
PRESSING = frozenset({NoticeKind.AGAINST, NoticeKind.OPENING, NoticeKind.PLAY})
MOST_PRESSING, MOST_STANDING = 3, 100


def of_member(member: Membership) -> QuerySet[Notice]:
    """Everything a member was told, the newest first."""
    return member.notices.select_related("mail")


def standing(member: Membership, now: datetime) -> QuerySet[Notice]:
    """What still stands before a member: neither seen nor lapsed nor put aside, the weightiest first."""
    awake = Q(asleep_until=None) | Q(asleep_until__lte=now)
    waiting = of_member(member).filter(awake, seen_at=None, lapsed_at=None)
    return waiting.order_by("weight", "-made_at", "-pk")


@dataclass(frozen=True)
class OfToday:
    """What stands before a member: what ``presses`` first, and how many others there are."""

    presses: list[Notice]
    others: int


def of_today(member: Membership, now: datetime) -> OfToday:
    """What the day's page shows of what stands before a member; one query.

    Work, readings and the week are left to the page itself, and to the page of notices.
    """
    rows = list(standing(member, now)[:MOST_STANDING])
    presses = [row for row in rows if row.kind in PRESSING][:MOST_PRESSING]
    return OfToday(presses, len(rows) - len(presses))


def warning_before(member: Membership, green: Green) -> Notice | None:
    """The warning about a green that a member has not acknowledged, if any."""
    waiting = of_member(member).filter(green=green, asks_word=True, seen_at=None, lapsed_at=None)
    return waiting.first()


def over(member: Membership, now: datetime) -> QuerySet[Notice]:
    """What a member was told and need not look at: seen, put aside, or no longer so; the newest first."""
    return of_member(member).exclude(pk__in=standing(member, now).order_by().values("pk"))


def of_club(club: Club) -> QuerySet[Notice]:
    """What everybody of a club was told, the newest first."""
    return club.notices.select_related("to", "person")


def with_keys(club: Club, keys: Iterable[str]) -> set[tuple[int, str]]:
    """Who was told what under these keys, as (person, key); one query."""
    return set(club.notices.filter(key__in=set(keys)).order_by().values_list("person", "key"))


def of_keys(club: Club, beginning: str) -> QuerySet[Notice]:
    """Notices of a club whose keys begin so, as far as they hold still."""
    return club.notices.filter(key__startswith=beginning, lapsed_at=None)


def standing_on(club: Club, kind: str, green_ids: Iterable[int]) -> QuerySet[Notice]:
    """What was told of a kind about these greens and holds still."""
    return club.notices.filter(kind=kind, green__in=list(green_ids), lapsed_at=None)


def standing_of_club(club: Club, kind: str) -> QuerySet[Notice]:
    """What was told of a kind about the whole club and holds still."""
    return club.notices.filter(kind=kind, green=None, lapsed_at=None)


def to_be_mailed(now: datetime) -> QuerySet[Notice]:
    """Of every club: due, and in no mail yet; for the sweep alone."""
    due = Notice.objects.filter(mail=None, mail_at__lte=now, lapsed_at=None)
    return due.order_by("mail_at", "pk")
