"""A club's own readings come in as sets, in the shape of their measure."""

import pytest

from greens.actions import book as books
from greens.models import ReadingSet
from tests.books import csv_book, whys

pytestmark = pytest.mark.django_db


class TestReadings:
    def test_rows_of_one_day_green_and_measure_are_one_set(self, take_in, keep):
        rows = [
            "16/03/2026,7,Rooting depth,45",
            "16/03/2026,7,Rooting depth,5 cm",
            "17/03/2026,7,Rooting depth,48",
        ]
        keep(take_in(csv_book("Date,Green,Measure,Value", *rows), "readings"))
        assert list(ReadingSet.objects.order_by("on").values_list("values", flat=True)) == [[45, 50], [48]]

    def test_several_values_may_stand_beside_each_other_or_in_one_cell(self, take_in, keep):
        book = take_in(
            csv_book("Date,Green,1,2,3", "16/03/2026,7,45,52,60", "17/03/2026,7,45; 52,,"), "readings"
        )
        columns = {0: "on", 1: "green", 2: "value", 3: "value", 4: "value"}
        once = {"measure": "rooting_depth"}
        books.set_columns(book=book, columns=columns, said_once=once, fills_down=False)
        keep(book)
        values = ReadingSet.objects.order_by("on").values_list("values", flat=True)
        assert list(values) == [[45, 52, 60], [45, 52]]

    def test_frames_answers_and_rolls_have_their_shape(self, take_in, keep):
        rows = [
            "16/03/2026,7,Cover,24/25",
            "16/03/2026,7,Hand_pull,yes",
            "16/03/2026,7,Speed,2.1; 2.2 | 2; 2.1",
        ]
        keep(take_in(csv_book("Date,Green,Measure,Value", *rows), "readings"))
        assert dict(ReadingSet.objects.values_list("measure", "values")) == {
            "cover": [{"hits": 24, "points": 25}],
            "hand_pull": [True],
            "green_speed": [{"first": [2.1, 2.2], "second": [2, 2.1]}],
        }

    def test_a_reading_before_laying_is_refused_as_the_form_refuses_it(self, take_in):
        book = take_in(csv_book("Date,Green,Measure,Value", "16/09/2025,7,Rooting depth,45"), "readings")
        assert "from laying or sowing, Mon 20 October 2025, on" in whys(book)[0][1]
