"""Tokens of programs: made, ended, and how often one may ask; the secret is returned once."""

import secrets
from datetime import timedelta

from django.conf import settings
from django.db import transaction
from django.db.models import Case, F, Q, When
from django.utils import timezone

from greens.actions import trail
from greens.actions.people import NotPossible
from greens.models import Membership, Token
from greens.models.link import hashed
from greens.queries import token as queries

#: A member has a few programs; more than so many are forgotten ones (our judgement).
MOST = 10
MINUTE = timedelta(minutes=1)


@transaction.atomic
def make_token(*, member: Membership, name: str) -> str:
    """A new token; returns its secret, which stands nowhere else.

    Raises NotPossible for a member who has ten already.
    """
    if queries.of(member).count() >= MOST:
        raise NotPossible(f"You have {MOST} tokens; end one that no program uses any more.")
    secret = secrets.token_urlsafe(32)
    row = Token.objects.create(member=member, name=name, secret_hash=hashed(secret))
    trail.write(club=member.club, by=member, deed=f"{member.name} made the token “{name}”", row=row)
    return secret


@transaction.atomic
def end_token(*, row: Token, by: Membership) -> bool:
    """It opens nothing any more; false when it was ended before."""
    ended = Token.objects.filter(pk=row.pk, ended_at=None).update(ended_at=timezone.now())
    if ended:
        deed = f"Ended the token “{row.name}” of {row.member.name}"
        trail.write(club=row.member.club, by=by, deed=deed, row=row)
    return bool(ended)


def seconds_to_wait(row: Token) -> int:
    """Count one question; 0 when it is heard, else the seconds until the next minute. One query.

    The count stands in the row, so that it holds for several processes, and two at once cannot both
    take the last one.
    """
    now = timezone.now()
    minute = now.replace(second=0, microsecond=0)
    may_ask = ~Q(minute=minute) | Q(minute=None) | Q(asked__lt=settings.INTERFACE_QUESTIONS_A_MINUTE)
    count = Case(When(minute=minute, then=F("asked") + 1), default=1)
    heard = Token.objects.filter(may_ask, pk=row.pk).update(minute=minute, asked=count, used_at=now)
    return 0 if heard else max(1, round((minute + MINUTE - now).total_seconds()))
