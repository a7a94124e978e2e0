"""What members are told."""

from collections.abc import Iterable
from datetime import datetime

from django.db.models import Q, QuerySet

from greens.models import Club, Membership, Notice


def of_member(member: Membership) -> QuerySet[Notice]:
    """Everything a member was told, the newest first."""
    return member.notices.select_related("mail")


def standing(member: Membership, now: datetime) -> QuerySet[Notice]:
    """What still stands before a member: neither seen nor lapsed nor put aside, the weightiest first."""
    awake = Q(asleep_until=None) | Q(asleep_until__lte=now)
    waiting = of_member(member).filter(awake, seen_at=None, lapsed_at=None)
    return waiting.order_by("weight", "-made_at", "-pk")


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
