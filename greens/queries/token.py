"""Tokens of programs, found by their secret or listed for a page."""

from django.db.models import QuerySet

from greens.models import Membership, Token
from greens.models.link import hashed


def live() -> QuerySet[Token]:
    """Those that open something: not ended, of somebody who still belongs to their club."""
    return Token.objects.filter(ended_at=None, member__ended_at=None, member__person__is_active=True)


def of(member: Membership) -> QuerySet[Token]:
    """A member's own, the newest first."""
    return live().filter(member=member)


def of_others(member: Membership) -> QuerySet[Token]:
    """Those of everybody else in the club, by name."""
    rows = live().filter(member__club=member.club).exclude(member=member)
    return rows.select_related("member").order_by("member__name", "pk")


def of_secret(secret: str) -> Token | None:
    """The token that this secret still is, with its member, person and club; one query."""
    return live().select_related("member__club", "member__person").filter(secret_hash=hashed(secret)).first()


def one_to_end(by: Membership, pk: int | None, *, any_member: bool) -> Token | None:
    """A token that this member may end: one of their own, or any of their club's."""
    of_whom = {"member__club": by.club} if any_member else {"member": by}
    return live().filter(pk=pk, **of_whom).select_related("member__club").first()
