"""Books of a club that were brought in, and how its books are read."""

from django.db.models import QuerySet

from greens.models import Book, BookHabit, Club
from greens.shelf import Place
from greens.validators.book_file import BookTable, taken_up
from growin.agronomy.book_cells import comma_told, order_told
from growin.agronomy.book_columns import unit_in

DAYS = {"on", "from_day", "retired_on", "detail.due_on", "detail.maintenance_ends_on"}
TEXTS = {
    "entry",
    "greens",
    "green",
    "kind",
    "product",
    "name",
    "label",
    "done_by",
    "taken_by",
    "note",
    "unit",
}
ROWS_SHOWN = 4


def of(club: Club) -> QuerySet[Book]:
    return club.books.select_related("logged_by", "job")


def one(club: Club, pk: int) -> Book:
    return of(club).get(pk=pk)


def kept(club: Club) -> QuerySet[Book]:
    """Those that were kept, whether or not that was undone since."""
    return of(club).exclude(imported_at=None)


def like_it(club: Club, kind: str, headers: list[str]) -> Book | None:
    """The last book of that kind with these headers that was kept: it is read in the same way."""
    return kept(club).filter(kind=kind, headers=headers).first()


def habit(club: Club, kind: str) -> BookHabit:
    """How the club's books of that kind are read; a blank one while nobody has said."""
    return club.book_habits.filter(kind=kind).first() or BookHabit(club=club, kind=kind)


def place_of(book: Book) -> Place:
    """Where its table lies until it is kept."""
    return Place.of_club(book.club_id, f"book-{book.key}.csv")


def place_of_unread(book: Book) -> Place:
    """Where the rows lie that could not be read."""
    return Place.of_club(book.club_id, f"book-{book.key}.unread.csv")


def table_of(book: Book) -> BookTable:
    """The table as it was laid by. Raises FileNotFoundError when it was kept or cleared away."""
    return taken_up(place_of(book).read_bytes().decode())


def first_rows(book: Book) -> list[list[str]]:
    """The first rows as they stand; none when the file is gone."""
    try:
        return [cells for _, cells in table_of(book).rows[:ROWS_SHOWN]]
    except FileNotFoundError:
        return []


def unread(book: Book) -> bytes | None:
    """The rows that could not be read, as CSV."""
    place = place_of_unread(book)
    return place.read_bytes() if place.exists() else None


def keys_of(book: Book) -> dict[int, str]:
    return {int(place): key for place, key in book.columns.items()}


def unit_of(book: Book, key: str) -> str:
    """What the header says of figures that name no unit; for amounts, what somebody said."""
    places = [place for place, one in keys_of(book).items() if one == key]
    named = unit_in(book.headers[places[0]]) if places else ""
    return named or book.said_once.get(f"{key}.unit", "")


def different(book: Book, table: BookTable, keys: set[str]) -> set[str]:
    """Every different text in the columns of these keys."""
    places = [place for place, key in keys_of(book).items() if key in keys]
    return {cells[place] for place in places for _, cells in table.rows}


def order_of(book: Book, table: BookTable) -> str | None:
    """Which of day and month comes first, as somebody said or the days tell; None asks."""
    return book.order or order_told(different(book, table, DAYS))


def comma_of(book: Book, table: BookTable) -> str | None:
    """What stands before decimals, as somebody said or the figures tell; None asks."""
    return book.comma or comma_told(different(book, table, {*keys_of(book).values()} - DAYS - TEXTS))
