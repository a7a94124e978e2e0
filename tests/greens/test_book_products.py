"""A club's own list of products comes into the store with its labels."""

import pytest

from greens.actions import book as books
from greens.actions import book_undo
from greens.models import Product
from greens.queries import book as queries
from tests.books import csv_book, found, whys
from tests.entries import label, logged

pytestmark = pytest.mark.django_db


class TestAListOfProducts:
    LINES = (
        "Product,Type,Analysis,Iron (Fe)",
        "Spring 12-5-9,granular,12-5-9,2",
        "Iron,liquid,,6",
        "Sand,sand,,",
    )

    def test_products_come_with_their_labels(self, cast, take_in, keep):
        book = take_in(csv_book(*self.LINES), "products")
        books.set_columns(
            book=book, columns=queries.keys_of(book) | {3: "part.Fe"}, said_once={}, fills_down=False
        )
        assert whys(book) == [
            (
                3,
                "Not a label that can be: density of a liquid labelled w/w, kg/l: nothing is not possible; "
                "it should be given.",
            )
        ]
        keep(book)
        feed = Product.objects.get(name="Spring 12-5-9").newest_label
        assert feed.as_printed == {"N_total": 12, "P2O5": 5, "K2O": 9, "Fe": 2}
        assert list(Product.objects.values_list("name", flat=True)) == ["Spring 12-5-9", "Sand"]

    def test_a_product_of_the_store_is_not_doubled_nor_its_label_changed(self, cast, take_in):
        label(cast, "Spring 12-5-9", lines={"N_total": 12, "P2O5": 5, "K2O": 9})
        label(cast, "Sand", kind="sand", lines={"N_total": 1})
        book = take_in(csv_book(self.LINES[0], self.LINES[1].removesuffix("2"), self.LINES[3]), "products")
        assert found(book) == {"new": 0, "there": 1, "passed": 0, "faults": 1}
        assert "another label; give it a new label there" in whys(book)[0][1]

    def test_taking_it_back_leaves_what_the_diary_names(self, cast, take_in, keep):
        book = keep(take_in(csv_book("Product,Kind", "Sand,sand", "Seed,seed"), "products"))
        sand = Product.objects.get(name="Sand")
        logged(cast, "dressing", products=[(sand.newest_label, 9_000)])
        assert book_undo.undo(book=book, by=cast.head) == {"taken": 1, "stays": 1}
        assert list(Product.objects.all()) == [sand]
