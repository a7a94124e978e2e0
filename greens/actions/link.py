"""Single-use links: made, looked up by their hash, used once."""

import secrets
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from greens.choices import LinkPurpose
from greens.models import Link, Membership, Person
from greens.models.link import hashed

GOOD_FOR = {LinkPurpose.INVITATION: timedelta(days=14), LinkPurpose.RESET: timedelta(hours=2)}


def make_link(
    *, purpose: LinkPurpose, email: str, person: Person | None = None, membership: Membership | None = None
) -> str:
    """Keep a link's hash and return its secret, which stands nowhere else."""
    secret = secrets.token_urlsafe(32)
    Link.objects.create(
        purpose=purpose,
        secret_hash=hashed(secret),
        email=email.strip().lower(),
        person=person,
        membership=membership,
        expires_at=timezone.now() + GOOD_FOR[purpose],
    )
    return secret


def open_link(secret: str, purpose: LinkPurpose) -> Link | None:
    """The link that this secret still opens, or none."""
    return (
        Link.objects.filter(
            secret_hash=hashed(secret), purpose=purpose, used_at=None, expires_at__gt=timezone.now()
        )
        .select_related("person", "membership__club")
        .first()
    )


@transaction.atomic
def use_link(link: Link) -> bool:
    """Spend the link; false when somebody was quicker."""
    return Link.objects.filter(pk=link.pk, used_at=None).update(used_at=timezone.now()) == 1
