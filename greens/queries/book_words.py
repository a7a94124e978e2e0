"""What the words of a club's book mean in its record: greens, works, products, people, measures."""

from collections import Counter
from collections.abc import Iterable, Mapping

from greens.choices import ProductKind
from greens.models import Book, Club
from greens.queries import book as books
from greens.queries import greens as places
from greens.queries import people, store
from greens.validators.book_file import BookTable
from growin.agronomy.book_cells import ALL_GREENS, green_key, greens_named
from growin.agronomy.book_columns import DIARY, PRODUCTS, READINGS
from growin.agronomy.book_words import plain_word, words_of_measures, words_of_products, words_of_works
from growin.agronomy.measures import MEASURES
from growin.agronomy.works import WORKS

ALL, LEAVE_OUT = "all", "-"
GREENS = {"greens", "green"}
PEOPLE = {"done_by", "taken_by"}
#: Columns whose words must be known, by kind of book.
WORDED: Mapping[str, tuple[str, ...]] = {
    DIARY: ("greens", "kind", "product", "done_by"),
    PRODUCTS: ("kind",),
    READINGS: ("green", "measure", "taken_by"),
}
Meanings = dict[str, str | int]


class Words:
    """The words of one book; what somebody said of a word goes before what it usually means."""

    def __init__(self, book: Book):
        self.book, club = book, book.club
        self.greens = {green.pk: green for green in places.of(club)}
        self.products = {one.pk: one for one in store.products(club)} if book.kind == DIARY else {}
        self.members = {one.pk: one for one in club.memberships.order_by("-ended_at", "pk")}
        self.meanings = {key: self._usual(key) | book.values.get(key, {}) for key in WORDED[book.kind]}

    def _usual(self, key: str) -> Meanings:
        if key in GREENS:
            return dict.fromkeys(map(green_key, ALL_GREENS), ALL) | names_of_greens(self.greens)
        if key in PEOPLE:
            return once((plain_word(one.name), pk) for pk, one in self.members.items())
        if key == "product":
            return {plain_word(one.name): pk for pk, one in self.products.items()}
        if key == "measure":
            return words_of_measures()
        return words_of_works() if self.book.kind == DIARY else words_of_products(dict(ProductKind.choices))

    def said(self, key: str, text: str) -> list[tuple[str, str | int | None]]:
        """Each word of a cell with what it means; None where nobody has said."""
        meanings = self.meanings[key]
        return [(word, meanings.get(as_compared(key, word))) for word in words_in(key, text, meanings)]

    def unknown(self, table: BookTable) -> dict[str, list[str]]:
        """Words that nobody has given a meaning, by column, in their order of the alphabet."""
        found = {}
        for key in self.meanings:
            texts = books.different(self.book, table, {key}) - {""}
            words = {as_compared(key, word): word for text in texts for word in self._strange(key, text)}
            if words:
                found[key] = sorted(words.values(), key=str.lower)
        return found

    def _strange(self, key: str, text: str) -> list[str]:
        return [word for word, meaning in self.said(key, text) if meaning is None]


def as_compared(key: str, word: str) -> str:
    return green_key(word) if key in GREENS else plain_word(word)


def words_in(key: str, text: str, meanings: Meanings) -> list[str]:
    """A cell may name several greens; everything else is one word."""
    if key not in GREENS or green_key(text) in meanings or plain_word(text) in ALL_GREENS:
        return [text]
    return [word for piece in joined(text.split("; "), meanings) for word in single(piece, meanings)]


def single(piece: str, meanings: Meanings) -> list[str]:
    return [piece] if green_key(piece) in meanings else greens_named(piece)


def joined(pieces: list[str], meanings: Meanings) -> list[str]:
    """The pieces, those that are parts of one known name put together again."""
    found, start = [], 0
    while start < len(pieces):
        ends = range(len(pieces), start, -1)
        names = ((end, "; ".join(pieces[start:end])) for end in ends)
        end, name = next(
            (pair for pair in names if green_key(pair[1]) in meanings), (start + 1, pieces[start])
        )
        found.append(name)
        start = end
    return found


def names_of_greens(greens: Mapping[int, object]) -> Meanings:
    """By name; by number on the card as well, where no name is a number."""
    by_name = once((green_key(green.name), pk) for pk, green in greens.items())
    if any(word.isdecimal() for word in by_name):
        return by_name
    return once((str(green.position), pk) for pk, green in greens.items()) | by_name


def once(pairs: Iterable[tuple[str, int]]) -> Meanings:
    """Words that mean one thing only."""
    pairs = list(pairs)
    counts = Counter(word for word, _ in pairs)
    return {word: pk for word, pk in pairs if counts[word] == 1}


def choices(club: Club, kind: str, key: str) -> list[tuple[str, str]]:
    """What a word may mean, for the one who says it."""
    if key in GREENS:
        return [*((str(one.pk), one.name) for one in places.of(club)), (ALL, "all greens")]
    if key in PEOPLE:
        return [(str(one.pk), one.name) for one in people.current(club)]
    if key == "product":
        return [(str(one.pk), one.name) for one in store.products(club)]
    return choices_of_words(kind, key)


def choices_of_words(kind: str, key: str) -> list[tuple[str, str]]:
    if kind == PRODUCTS:
        return list(ProductKind.choices)
    table = WORKS if key == "kind" else MEASURES
    return sorted(((name, one.words) for name, one in table.items()), key=lambda pair: pair[1])
