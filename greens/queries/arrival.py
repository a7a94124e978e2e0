"""What came from phones."""

from uuid import UUID

from greens.models import Arrival, Club


def of_row(club: Club, client_id: UUID) -> Arrival | None:
    """How an entry or a set of readings came from a phone, if it did; one query."""
    return Arrival.objects.filter(club=club, client_id=client_id).first()
