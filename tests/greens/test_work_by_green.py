"""A line of an entry says the kind and the day of its entry, whatever becomes of the entry."""

from datetime import timedelta
from importlib import import_module

import pytest
from django.apps import apps
from django.db import connection
from django.db.models import F

from greens.actions import book_undo
from greens.actions.diary import correct_work, take_back
from greens.models import Entry, EntryGreen
from tests.books import csv_book
from tests.cast import laid_green
from tests.entries import label, logged

pytestmark = pytest.mark.django_db


def strays() -> list[EntryGreen]:
    """Lines that say another kind or day than their entry, and entries without a line."""
    agree = EntryGreen.objects.filter(kind=F("entry__kind"), on=F("entry__on"))
    return [*EntryGreen.objects.exclude(pk__in=agree), *Entry.objects.filter(lines=None)]


def test_lines_agree_after_logging_correcting_and_taking_back(cast):
    eighth = laid_green(cast.club, "Eighth", area_m2=380).green
    cut, feed = logged(cast), logged(cast, "feed", products=[(label(cast, lines={"N_total": 8}), 11_250)])
    yesterday = cast.today - timedelta(days=1)
    correct_work(entry=cut, by=cast.head, on=yesterday, greens=[cast.green, eighth])
    take_back(entry=feed, by=cast.head)
    said = EntryGreen.objects.order_by("kind", "green__name").values_list("kind", "on", "green__name")
    assert list(said) == [
        ("cut", yesterday, "Eighth"),
        ("cut", yesterday, "Seventh"),
        ("feed", cast.today, "Seventh"),
    ]
    assert strays() == []


def test_lines_agree_after_an_import_a_correction_of_it_and_its_undoing(cast, take_in, keep):
    laid_green(cast.club, "Fourth")
    book = keep(take_in(csv_book("Date,Green,Work,Height", '16/03/2026,"Fourth; Seventh",Cut,8')))
    assert strays() == []
    correct_work(entry=Entry.objects.get(), by=cast.head, on=cast.today)
    assert book_undo.undo(book=book, by=cast.head) == {"taken": 0, "stays": 1}
    lines = EntryGreen.objects.order_by("green__name").values_list("kind", "on", "green__name")
    assert list(lines) == [("cut", cast.today, "Fourth"), ("cut", cast.today, "Seventh")]
    assert strays() == []


def test_lines_kept_before_take_both_from_their_entries(cast):
    cut = logged(cast)
    EntryGreen.objects.update(kind="", on="1900-01-01")
    import_module("greens.migrations.0015_work_by_green").take_kind_and_day_from_the_entry(
        apps, connection.schema_editor()
    )
    assert list(cut.lines.values_list("kind", "on")) == [("cut", cast.today)]
