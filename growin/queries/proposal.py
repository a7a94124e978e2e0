"""Days proposed for opening, and how they ended."""

from datetime import date

from django.db.models import Q, QuerySet

from greens.models import Club, Establishment
from growin.models import Proposal


def of_club(club: Club) -> QuerySet[Proposal]:
    return Proposal.objects.filter(establishment__green__club=club).select_related(
        "establishment__green", "by", "ended_by", "decision"
    )


def one(club: Club, pk: int) -> Proposal:
    """Raises Proposal.DoesNotExist when it is not this club's."""
    return of_club(club).get(pk=pk)


def of(establishment: Establishment) -> QuerySet[Proposal]:
    """Every proposal for one rebuild, the newest first."""
    return establishment.proposals.select_related("by", "ended_by", "decision")


def still_open(rows: QuerySet[Proposal], on: date) -> QuerySet[Proposal]:
    """Those that stood undecided on a day."""
    undecided = Q(ended_on=None) | Q(ended_on__gt=on)
    return rows.filter(undecided, made_on__lte=on, opening_on__gte=on)


def open_of(establishment: Establishment, on: date) -> Proposal | None:
    """The one that stood undecided on a day, if any; one query."""
    return still_open(of(establishment), on).first()


def open_in(club: Club, on: date) -> dict[int, Proposal]:
    """Those of a club by the rebuild's id; one query."""
    return {row.establishment_id: row for row in still_open(of_club(club), on)}


def standing_in(club: Club, on: date) -> dict[int, Proposal]:
    """The same without the people and places around them, for judging; one query."""
    rows = Proposal.objects.filter(establishment__green__club=club)
    return {row.establishment_id: row for row in still_open(rows, on)}
