"""What members wish to be told, and whom something reaches."""

from collections.abc import Iterable

from django.db.models import QuerySet

from greens.models import Club, Membership, Wish
from greens.models.wish import PACES
from greens.queries import people


def of(member: Membership) -> Wish:
    """The member's own, or the defaults."""
    return Wish.objects.filter(member=member).first() or Wish(member=member)


def of_all(members: Iterable[Membership]) -> dict[int, Wish]:
    """The wishes of several members by their ids, with the greens they left out; two queries."""
    known = {one.pk: one for one in members}
    rows = {row.member_id: row for row in Wish.objects.filter(member__in=known).prefetch_related("left_out")}
    for pk, row in rows.items():
        row.member = known[pk]
    return {pk: rows.get(pk) or Wish(member=member) for pk, member in known.items()}


def left_out(wish: Wish) -> set[int]:
    """Greens of which a member is not reminded, by their ids."""
    return {green.pk for green in wish.left_out.all()} if wish.pk else set()


def able(club: Club) -> QuerySet[Membership]:
    """Everybody of a club who can sign in."""
    return people.current(club).filter(person__isnull=False, person__is_active=True)


def hearing(members: Iterable[Membership], kind: str) -> list[Membership]:
    """Those whose role is told of a kind."""
    return [one for one in members if kind in PACES[one.role]]
