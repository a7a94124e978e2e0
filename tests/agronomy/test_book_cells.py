"""Days, figures, amounts and names of greens as clubs write them; what could mean two things is asked."""

from datetime import date
from decimal import Decimal

import pytest

from growin.agronomy.book_cells import (
    COMMA,
    POINT,
    amount_of,
    comma_told,
    days_of,
    figure_and_unit,
    green_key,
    greens_named,
    in_unit,
    order_told,
)
from growin.agronomy.book_columns import BOOKS, recognised, unit_in
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.weather_cells import DAY_FIRST, MONTH_FIRST

DAYS = [
    "16/04/2026",
    "16.4.26",
    "2026-04-16",
    "16 Apr 2026",
    "Thu 16th April 2026",
    "46128",
    "16-04-2026 00:00",
]


@pytest.mark.parametrize("text", DAYS)
def test_a_day_is_read_however_it_is_written(text):
    assert days_of([text], DAY_FIRST) == {text: date(2026, 4, 16)}


@pytest.mark.parametrize("text", ["31/02/2026", "04/16/2026", "April", "16 Apr", "", "spring"])
def test_what_is_no_day_stays_none(text):
    assert days_of([text], DAY_FIRST) == {text: None}


@pytest.mark.parametrize(
    ("texts", "order"),
    [
        (["04/05/2026", "16/05/2026"], DAY_FIRST),
        (["04/05/2026", "05/16/2026"], MONTH_FIRST),
        (["04/05/2026"], None),
        (["16/05/2026", "05/16/2026", "01/02/2026"], None),
        (["05/05/2026", "2026-04-05", "46128"], ""),
    ],
)
def test_which_of_day_and_month_comes_first_is_told_or_asked(texts, order):
    assert order_told(texts) == order


@pytest.mark.parametrize(
    ("text", "figure", "unit"),
    [
        ("22,5 kg", "22.5", "kg"),
        ("0.5 kg/m²", "0.5", "kg/m²"),
        ("8 mm", "8", "mm"),
        ("8mm", "8", "mm"),
        ("1,250.5", "1250.5", ""),
        ("1.250,5", "1250.5", ""),
        ("1 250", "1250", ""),
        ("1'250", "1250", ""),
        ("−3", "-3", ""),
        ("0,125", "0.125", ""),
        ("1,234,567", "1234567", ""),
    ],
)
def test_a_figure_is_read_with_its_unit(text, figure, unit):
    assert figure_and_unit(text) == (Decimal(figure), unit)


@pytest.mark.parametrize(
    ("texts", "comma"),
    [
        (["1,250", "22,5"], COMMA),
        (["1,250", "22.5"], POINT),
        (["1,250"], None),
        (["22,5", "22.5", "1,250"], None),
        (["12", "1.250"], ""),
    ],
)
def test_what_a_comma_does_is_told_by_other_figures_or_asked(texts, comma):
    assert comma_told(texts) == comma


def test_a_comma_is_read_as_it_was_told():
    assert [figure_and_unit("1,250", comma)[0] for comma in (POINT, COMMA)] == [1250, Decimal("1.250")]
    assert figure_and_unit("1.250", COMMA)[0] == 1250


# 4.5 ha of greens would be 450,000 dm²; the green here has 450 m². lb and ft after the agreement of 1959.
@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("22,5 kg", 22_500),
        ("850 g", 850),
        ("0.25 t", 250_000),
        ("50 g/m2", 22_500),
        ("50 g per sqm", 22_500),
        ("0.5 kg/m²", 225_000),
        ("500 kg/ha", 22_500),
        ("0.5 t/ha", 22_500),
        ("2 lb", 907),
        ("1 lb/1,000 ft²", 2_197),
    ],
)
def test_an_amount_comes_to_whole_grams_over_the_green(text, grams):
    assert amount_of(text).whole(45_000) == grams


def test_a_depth_of_sand_wants_its_bulk_density():
    assert amount_of("1 mm").whole(45_000, Decimal("1.6")) == 720_000
    with pytest.raises(ImpossibleValue, match="bulk density"):
        amount_of("1 mm").whole(45_000)


@pytest.mark.parametrize("text", ["2 bags", "12", "some", "kg"])
def test_an_amount_nobody_can_weigh_is_refused_with_what_would_be_right(text):
    with pytest.raises(ImpossibleValue, match="kg, g, t, l, ml|such as 12.5"):
        amount_of(text)


def test_a_header_may_say_the_unit():
    assert unit_in("Amount (kg)") == "kg"
    assert amount_of("22.5", unit_in("Amount (kg)")).whole(1) == 22_500
    assert in_unit("1", "mm", unit_in("Depth, in")) == Decimal("25.4")


def test_a_unit_of_something_else_is_refused():
    with pytest.raises(ImpossibleValue, match="one in mm"):
        in_unit("8 kg", "mm")


SAME = [
    "7",
    "7th",
    "Seventh",
    "No 7",
    "No. 7",
    "7th green",
    "Green 7",
    "Hole 07",
    "the seventh",
    "Seven",
    "#7",
]


@pytest.mark.parametrize("name", SAME)
def test_a_green_has_many_names(name):
    assert green_key(name) == "7"


def test_a_green_with_a_name_of_its_own_keeps_it():
    assert green_key("Long  Meadow") == "long meadow"


def test_a_cell_may_name_several_greens():
    assert greens_named("3, 5 & 7") == ["3", "5", "7"]
    assert greens_named("1-4") == ["1", "2", "3", "4"]
    assert greens_named("Fourth and Seventh") == ["Fourth", "Seventh"]


def test_our_own_headers_are_known_without_a_word():
    for book, columns in BOOKS.items():
        found = recognised(book, [one.header for one in columns if not one.is_in_only])
        assert list(found.values()) == [one.key for one in columns if not one.is_in_only]


def test_usual_headers_are_known():
    headers = ["Date", "Hole", "Job", "Fertiliser", "Qty (kg)", "HOC (mm)", "By", "Remarks", "Weather"]
    assert recognised("diary", headers) == {
        0: "on",
        1: "greens",
        2: "kind",
        3: "product",
        4: "amount",
        5: "detail.height_mm",
        6: "done_by",
        7: "note",
    }
