"""Calendar addresses of members, found by their secret."""

from greens.models import Feed, Membership
from greens.models.link import hashed


def of(member: Membership) -> Feed | None:
    return Feed.objects.filter(member=member).first()


def of_secret(secret: str) -> Feed | None:
    """The address that this secret opens, with its member and club; none once the member has left."""
    rows = Feed.objects.select_related("member__club", "member__person")
    return rows.filter(
        secret_hash=hashed(secret), member__ended_at=None, member__person__is_active=True
    ).first()
