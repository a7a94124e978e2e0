"""What a book brought: what still stands as it came, and what somebody changed since."""

from django.db.models import Exists, OuterRef, Q, QuerySet

from greens.choices import BookKind
from greens.models import Book, Defect, EntryProduct, StockLine, TrailLine

NOUNS = {BookKind.DIARY: "entry", BookKind.PRODUCTS: "product", BookKind.READINGS: "readingset"}
ROWS = {BookKind.DIARY: "entries", BookKind.PRODUCTS: "products", BookKind.READINGS: "reading_sets"}


def brought(book: Book) -> QuerySet:
    """Everything that came with it and still stands."""
    rows = getattr(book, ROWS[book.kind])
    return rows.all() if book.kind == BookKind.PRODUCTS else rows.filter(taken_back_at=None)


def untouched(book: Book) -> QuerySet:
    """What nobody changed since: no line of the record of changes names it."""
    of_it = TrailLine.objects.filter(club=book.club, noun=NOUNS[book.kind], noun_pk=OuterRef("pk"))
    rows = brought(book).filter(~Exists(of_it))
    if book.kind == BookKind.PRODUCTS:
        return rows.filter(~used())
    return rows.filter(revision=1) if book.kind == BookKind.READINGS else with_own_defects(book, rows)


def used() -> Q:
    """Products that the diary or the shed names."""
    in_diary = EntryProduct.objects.filter(label__product=OuterRef("pk"))
    in_shed = StockLine.objects.filter(product=OuterRef("pk"))
    return Q(Exists(in_diary)) | Q(Exists(in_shed))


def with_own_defects(book: Book, entries: QuerySet) -> QuerySet:
    """Entries of a defect stay when the record said more of that defect since."""
    changed = TrailLine.objects.filter(club=book.club, noun="defect", noun_pk=OuterRef("pk"))
    defects = Defect.objects.filter(Exists(changed), entry=OuterRef("pk"))
    return entries.filter(~Exists(defects), revision=1)


def counts(book: Book) -> dict[str, int]:
    """What taking it back would take, and what would stay."""
    taken = untouched(book).count()
    return {"taken": taken, "stays": brought(book).count() - taken}
