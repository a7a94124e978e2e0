"""Taking a book back: exactly what it brought, and nothing that somebody changed since."""

from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from greens.actions import trail
from greens.choices import BookKind
from greens.models import Book, Defect, Membership, Product
from greens.queries import book_undo as queries


@transaction.atomic
def undo(*, book: Book, by: Membership) -> dict[str, int]:
    """Take back what stands as the book brought it; return how much, and how much stays as it was changed.

    Work and readings are marked as taken back, never deleted; products that nothing names go for good.
    """
    mine = Book.objects.filter(pk=book.pk, undone_at=None).exclude(imported_at=None)
    if not mine.update(undone_at=timezone.now()):
        return {"taken": 0, "stays": 0}
    counts = queries.counts(book)
    taken = drop(queries.untouched(book)) if book.kind == BookKind.PRODUCTS else mark(book, by)
    counts["taken"] = taken
    book.refresh_from_db()
    book.result = book.result | counts
    book.save(update_fields=["result"])
    deed = f"Took back {book.get_kind_display().lower()} from {book.name}"
    trail.write(club=book.club, by=by, deed=deed, row=book, changes=trail.as_created(counts))
    return counts


def mark(book: Book, by: Membership) -> int:
    """Taken back, and what the entries noted of defects with them."""
    rows = queries.untouched(book)
    if book.kind == BookKind.DIARY:
        Defect.objects.filter(entry__in=rows.order_by().values("pk")).delete()
    return rows.update(taken_back_at=timezone.now(), taken_back_by=by)


def drop(products: QuerySet[Product]) -> int:
    count = products.count()
    products.delete()
    return count
