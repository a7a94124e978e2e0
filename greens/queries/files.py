"""Stored photographs and documents of a club."""

from uuid import UUID

from django.db.models import QuerySet, Sum

from greens.choices import FileKind
from greens.models import Club, Green, Product, StoredFile
from greens.shelf import Place


def of(club: Club) -> QuerySet[StoredFile]:
    return club.files.select_related("by")


def of_green(green: Green) -> QuerySet[StoredFile]:
    return green.files.select_related("by")


def of_product(product: Product) -> QuerySet[StoredFile]:
    return product.files.select_related("by")


def by_kind(green: Green) -> dict[str, list[StoredFile]]:
    """A green's own photographs and documents, newest first; one query."""
    rows = list(of_green(green))
    return {str(kind): [row for row in rows if row.kind == kind] for kind in FileKind}


def one(club: Club, pk: int) -> StoredFile:
    return of(club).get(pk=pk)


def attached(club: Club, client_id: UUID) -> StoredFile | None:
    """The attachment that this club already keeps under the sender's own id."""
    return of(club).filter(client_id=client_id).first()


def bytes_kept(club: Club) -> int:
    return club.files.aggregate(total=Sum("size_bytes"))["total"] or 0


def place_of(row: StoredFile, small: bool = False) -> Place:
    """Where the bytes lie, outside the web root; photographs have a small copy beside."""
    return Place.of_club(row.club_id, f"{row.key}{'-small' if small else ''}")
