"""Taking in what a phone had kept: once, however often it is sent."""

from datetime import datetime
from uuid import UUID

from django.db import IntegrityError, transaction
from django.utils import timezone

from greens.models import Arrival, Club, Membership

#: A clock that is further off than this is worth a word, s.
NOTED_S = 120


class OtherContent(Exception):
    """Something else came under this id before; ``arrival`` is what stands."""

    def __init__(self, arrival: Arrival):
        self.arrival = arrival
        super().__init__("Something else was sent from this phone under the same number before.")


def take_in(
    *,
    club: Club,
    by: Membership,
    client_id: UUID,
    content: str,
    kept_at: datetime | None,
    ahead_s: int | None,
) -> tuple[Arrival, bool]:
    """The arrival under this id, and whether it is the first; to be called in a transaction.

    Two that come at the same moment wait for each other here: the second finds what the first kept.

    Raises
    ------
    OtherContent
        When other content, or another person's, came under this id.
    """
    found = Arrival.objects.filter(club=club, client_id=client_id).first()
    if found is None:
        try:
            with transaction.atomic():
                return Arrival.objects.create(
                    club=club, by=by, client_id=client_id, content=content, kept_at=kept_at, ahead_s=ahead_s
                ), True
        except IntegrityError:
            found = Arrival.objects.get(club=club, client_id=client_id)
    if (found.content, found.by_id) != (content, by.pk):
        raise OtherContent(found)
    return found, False


def answer(arrival: Arrival, page: str) -> None:
    """Note the page on which the one who sent it sees what was kept."""
    Arrival.objects.filter(pk=arrival.pk).update(page=page[:300])
    arrival.page = page


def seconds_ahead(clock: datetime | None) -> int | None:
    """How far a phone's clock stood ahead of ours, where it is worth a word."""
    if clock is None:
        return None
    ahead = round((clock - timezone.now()).total_seconds())
    return ahead if abs(ahead) >= NOTED_S else None
