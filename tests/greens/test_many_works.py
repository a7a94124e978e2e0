"""Work by the thousand comes to the same as work logged one by one, and adds up to the gram."""

from datetime import date
from fractions import Fraction
from random import Random

import pandas as pd
import pytest

from greens.actions import book as books
from greens.actions import book_keep as keeping
from greens.actions import job as jobs
from greens.actions.diary import record_work
from greens.actions.weather import record_day
from greens.models import Entry, EntryGreen, EntryNutrient, EntryProduct, Establishment, Label
from greens.queries import diary
from tests.books import HEADERS, as_csv, eighteen_greens, season_rows, shed

pytestmark = pytest.mark.django_db
FIRST = date(2026, 1, 5)


@pytest.fixture
def furnished(cast):
    """Eighteen greens laid long ago, one of them by a pond, a shed, and constants of the club's own."""
    long_ago = {"works_started_on": date(2005, 8, 1), "established_on": date(2005, 9, 1)}
    Establishment.objects.filter(pk=cast.establishment.pk).update(**long_ago)
    eighteen_greens(cast.club)
    shed(cast.head)
    cast.club.greens.filter(name="Third").update(distance_to_water_m=1)
    cast.club.year_limit_n_kg_ha, cast.club.closed_from, cast.club.closed_until = 20, "01-01", "01-20"
    cast.club.save()
    return cast


def brought_in(cast, rows) -> None:
    book = books.take_in(club=cast.club, by=cast.head, kind="diary", file=as_csv(rows))
    keeping.look(book)
    job = keeping.queue_import(book=book, by=cast.head)
    jobs.do(job.pk, keeping.import_book)
    job.refresh_from_db()
    assert (job.error, job.result["new"]) == ("", len(rows))


def as_kept(cast) -> list[tuple]:
    """Every entry with lines, products, nutrients and what the limits say, in the order of keeping."""
    entries = diary.with_lines(diary.of(cast.club)).order_by("pk")
    return [
        (
            entry.kind,
            entry.on,
            entry.details,
            entry.note,
            entry.over_limit,
            [
                (line.green_id, line.establishment_id, line.kind, line.on, line.area_dm2)
                for line in entry.lines.all()
            ],
            [(one.label_id, one.amount) for one in entry.products.all()],
            sorted(
                (one.element, one.mg_m2)
                for product in entry.products.all()
                for one in product.nutrients.all()
            ),
        )
        for entry in entries
    ]


WORKS = {"Cut": "cut", "Rolled": "roll", "Fed": "feed", "Topdressed": "dressing", "Watered": "water"}


def logged_one_by_one(cast, rows) -> None:
    labels = {label.product.name: label for label in Label.objects.select_related("product")}
    greens = {green.name: green for green in cast.club.greens.all()}
    for day, green, job, product, amount, height, depth, _, note in rows:
        details = {"height_mm": height} if height else {"depth_mm": depth} if depth else {}
        products = [(labels[product], grams(amount, greens[green].area_dm2))] if product else []
        record_work(
            club=cast.club,
            by=cast.head,
            done_by=cast.head,
            kind=WORKS[job],
            on=date(*map(int, reversed(day.split("/")))),
            greens=[greens[green]],
            details=details,
            products=products,
            note=note,
        )


def grams(amount: str, area_dm2: int) -> int:
    """A rate in g/m² or kg/m² over a green, whole grams, a half going up."""
    figure, unit = amount.split()
    exact = Fraction(figure) * (1000 if unit == "kg/m²" else 1) * area_dm2 / 100
    return int(exact + Fraction(1, 2))


def test_the_judge_says_the_same_of_a_book_as_of_single_entries(furnished):
    rows = season_rows(300, seed=11, first=FIRST)
    brought_in(furnished, rows)
    from_book = as_kept(furnished)
    Entry.objects.all().delete()
    logged_one_by_one(furnished, rows)
    assert from_book == as_kept(furnished)
    said = {sentence for _, _, _, _, over, *_ in from_book for sentence in over}
    assert any("Water lies 1 m" in one for one in said)
    assert any("the club's own limit is 20 kg N/ha" in one for one in said)
    assert any("nothing is fed from" in one for one in said)


def frame(rows) -> pd.DataFrame:
    return pd.DataFrame(rows, columns=HEADERS)


def test_the_ledger_adds_up_to_the_gram_beside_pandas(furnished):
    """Random entries summed by pandas from the book itself, by green and by product."""
    rows = season_rows(2_000, seed=Random().randrange(10**6), first=FIRST.replace(year=2020))
    brought_in(furnished, rows)
    areas = dict(furnished.club.greens.values_list("name", "area_dm2"))
    told = frame([row for row in rows if row[3]])
    told["grams"] = [
        grams(amount, areas[green]) for amount, green in zip(told["Amount"], told["Hole"], strict=True)
    ]
    sums = told.groupby(["Hole", "Product"])["grams"].sum()
    kept = pd.DataFrame(
        EntryProduct.objects.values_list("entry__lines__green__name", "label__product__name", "amount"),
        columns=["Hole", "Product", "grams"],
    )
    assert kept.groupby(["Hole", "Product"])["grams"].sum().to_dict() == sums.to_dict()


def test_nutrients_add_up_to_the_milligram_beside_pandas(furnished):
    rows = season_rows(1_500, seed=5, first=FIRST.replace(year=2021))
    brought_in(furnished, rows)
    areas = dict(furnished.club.greens.values_list("name", "area_dm2"))
    share = {"Spring 12-5-9": ("N", 12), "Autumn 4-0-8": ("N", 4), "Iron": ("Fe", 20)}
    fed = frame([row for row in rows if row[3] in share])
    fed["element"] = [share[name][0] for name in fed["Product"]]
    fed["mg"] = [
        int(Fraction(grams(amount, areas[green]) * share[name][1] * 10 * 100, areas[green]) + Fraction(1, 2))
        for amount, green, name in zip(fed["Amount"], fed["Hole"], fed["Product"], strict=True)
    ]
    kept = pd.DataFrame(
        EntryNutrient.objects.values_list("product__entry__lines__green__name", "element", "mg_m2"),
        columns=["Hole", "element", "mg"],
    )
    by = ["Hole", "element"]
    assert kept.groupby(by)["mg"].sum().to_dict() == fed.groupby(by)["mg"].sum().to_dict()


def test_counts_by_day_and_work_are_those_of_the_book(furnished):
    rows = season_rows(800, seed=3, first=FIRST.replace(year=2022))
    brought_in(furnished, rows)
    told = frame(rows).groupby(["Date", "Job"]).size()
    kept = pd.DataFrame(EntryGreen.objects.values_list("entry__on", "entry__kind"), columns=["on", "kind"])
    names = {kind: job for job, kind in WORKS.items()}
    counts = kept.groupby([kept["on"].map(lambda on: f"{on:%d/%m/%Y}"), kept["kind"].map(names)]).size()
    assert counts.to_dict() == told.to_dict()


def test_the_soil_of_the_day_counts_for_each_row(furnished):
    """A cold soil on one day."""
    record_day(club=furnished.club, by=furnished.head, on=date(2026, 1, 6), min_c=1, max_c=4, soil_100_c=2)
    rows = season_rows(120, seed=2, first=FIRST)
    brought_in(furnished, rows)
    from_book = as_kept(furnished)
    Entry.objects.all().delete()
    logged_one_by_one(furnished, rows)
    assert from_book == as_kept(furnished)
