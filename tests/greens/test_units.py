"""Clubs that read inches and pounds: shown and typed so, stored in metric figures all the same.

Factors are held to NIST Special Publication 811 (2008), appendix B.8: 1 in = 25.4 mm, 1 lb = 0.45359237 kg,
1 ft² = 0.09290304 m², 1 US gal = 3.785412 l, °F = 1.8 °C + 32.
"""

import re
from decimal import Decimal

import pytest
from django import forms
from django.core.serializers import serialize
from hypothesis import given
from hypothesis import strategies as st

from greens import units
from greens.choices import Units
from greens.forms.sheet import QuantityField, Sheet
from greens.models import Club, Entry, Green, ReadingSet, WeatherDay
from growin.models import ProgrammeStep
from tests.entries import at, cut, fed, label, logged
from tests.rows import rows_of


class Cut(Sheet):
    height_mm = QuantityField(unit="mm", low=2, high=15, decimal_places=3)


@pytest.fixture
def us_club(cast) -> Club:
    cast.club.units = Units.US
    cast.club.save()
    return cast.club


@pytest.fixture
def in_us():
    with units.shown_in(Units.US):
        yield


@pytest.mark.parametrize(
    ("stored", "read"),
    [
        # NIST SP 811, B.8: 0.45359237 kg / 92.90304 m² = 48.82 kg/ha
        ("48.8 kg N/ha", "1 lb N/1,000 ft²"),
        ("48.8 kg/ha", "1 lb/1,000 ft²"),
        ("4.88 g/m²", "1 lb/1,000 ft²"),
        ("25.4 mm", "1 in"),
        ("100 m²", "1,076 ft²"),
        ("3.785 l", "1 US gal"),
        ("0.7646 m³", "1 yd³"),
        ("907 kg", "2,000 lb"),
        ("0.907 t", "1 short tons"),
        ("374 l/ha", "0.92 US gal/1,000 ft²"),
        ("20 °C", "68 °F"),
        ("-40 °C", "-40 °F"),
        ("10 °C·days", "18 °F·days"),
        ("3 °C more or less", "5.4 °F more or less"),
    ],
)
def test_figures_are_read_by_the_factors_of_nist(stored, read, in_us):
    assert units.said(stored) == read


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("From 8 to 7.5 mm takes a third.", "From 0.315 to 0.295 in takes a third."),
        ("262–310 mm at 12 places", "10.3–12.2 in at 12 places"),
        ("22.5 kg of Spring 12-5-9, 50 g/m² (500 kg/ha)", "49.6 lb of Spring 12-5-9, 10.2 lb/1,000 ft²"),
        (
            "Height of cut, mm: 304.8 is not possible; it should be from 2 to 25.",
            "Height of cut, in: 12 is not possible; it should be from 0.079 to 0.98.",
        ),
        (
            "Highest, °C: 15.6 is not possible; it should be at least the lowest of the day, 26.7.",
            "Highest, °F: 60.1 is not possible; it should be at least the lowest of the day, 80.1.",
        ),
        (
            "White roots, mm: “5x” is not possible; it should be a number from 0 to 400.",
            "White roots, in: “5x” is not possible; it should be a number from 0 to 15.7.",
        ),
        ("40 % finer than 0.15 mm, 3 % in the rootzone", "40 % finer than 0.15 mm, 3 % in the rootzone"),
        ("soil test of 21 ppm on 3 of 5 days", "soil test of 21 ppm on 3 of 5 days"),
    ],
)
def test_a_sentence_turns_its_figures_and_nothing_else(metric, us):
    assert units.said(metric) == metric
    with units.shown_in(Units.US):
        assert units.said(metric) == us


@given(st.sampled_from(sorted(units.QUANTITIES)), st.decimals(-500, 5000, places=2), st.integers(2, 4))
def test_what_is_shown_in_a_form_brings_back_what_is_stored(unit, stored, places):
    with units.shown_in(Units.US):
        typed = Decimal(units.written(stored, unit, places))
        assert units.stored(typed, unit, places) == stored


@given(st.decimals(0, 3, places=4))
def test_what_is_typed_is_kept_to_the_stored_decimals(inches):
    with units.shown_in(Units.US):
        assert abs(units.stored(inches, "mm", 3) - inches * Decimal("25.4")) <= Decimal("0.0005")


def test_a_form_takes_inches_and_keeps_millimetres(in_us):
    sheet = Cut({"height_mm": "0,125"})
    assert sheet.is_valid() and sheet.cleaned_data == {"height_mm": Decimal("3.175")}
    assert (Cut(initial={"height_mm": 5.5})["height_mm"].value(), sheet["height_mm"].field.unit) == (
        "0.21654",
        "in",
    )


@pytest.mark.parametrize("typed", ["8", "0.591", "0.05", "-0.2"])
def test_a_mistake_is_told_in_the_unit_it_was_made_in(typed, in_us):
    assert Cut({"height_mm": typed}).errors["height_mm"] == [
        f"{typed} in cannot be right; it should lie between 0.079 and 0.59 in."
    ]


@pytest.mark.parametrize("typed", ["1e999999", "-1e-999999", "NaN", "Infinity", "1" * 40])
def test_no_figure_is_too_strange_to_refuse(typed, in_us):
    assert "height_mm" in Cut({"height_mm": typed}).errors


def test_a_metric_club_meets_nothing_of_it():
    sheet = Cut({"height_mm": "5.5"})
    assert sheet.is_valid() and sheet.cleaned_data == {"height_mm": Decimal("5.5")}
    assert isinstance(sheet.fields["height_mm"], forms.DecimalField) and sheet["height_mm"].field.unit == "mm"


def test_an_eighth_of_an_inch_is_stored_as_3_175_mm(us_club, cast, as_):
    as_("staff").post(at(cast, "log_work", "cut"), cut(cast, height_mm="0.125"))
    entry = Entry.objects.get()
    assert entry.details == {"height_mm": 3.175}
    page = as_("staff").get(at(cast, "correct_entry", entry.pk)).content.decode()
    assert 'value="0.125"' in page
    assert "0.125 in" in as_("staff").get(at(cast, "entry", entry.pk)).content.decode()


def test_a_pound_on_a_thousand_square_feet_is_48_8_kg_a_hectare(us_club, cast, as_):
    """A whole pound of nitrogen, by a feed of 50 %, on 450 m²: 2 lb of it on each 1,000 ft²."""
    feed = label(cast, lines={"N_total": 50})
    as_("staff").post(at(cast, "log_work", "feed"), fed(cast, (feed, "2", "m2"), form="granular"))
    entry = Entry.objects.get()
    assert entry.nutrients[0].kg_ha == pytest.approx(48.82, abs=0.01)
    page = as_("staff").get(at(cast, "entry", entry.pk)).content.decode()
    assert "N 1 lb/1,000 ft²" in page and " kg" not in page


def test_a_bag_of_fifty_pounds_comes_back_as_fifty(us_club, cast, as_):
    feed = label(cast, lines={"N_total": 12})
    as_("staff").post(at(cast, "log_work", "feed"), fed(cast, (feed, "50", "all"), form="granular"))
    entry = Entry.objects.get()
    assert entry.products.get().amount == 22_680
    assert 'value="50"' in as_("staff").get(at(cast, "correct_entry", entry.pk)).content.decode()


def test_readings_are_typed_in_inches(us_club, cast, as_):
    sent = {"values": ["2", "1.5"], "on": "2026-04-16", "taken_by": cast.staff.pk, "client_id": ""}
    as_("staff").post(at(cast, "take_reading", cast.green.pk, "rooting_depth"), sent)
    kept = ReadingSet.objects.get()
    assert kept.values == [50.8, 38.1]
    page = as_("staff").get(at(cast, "correct_reading", kept.pk)).content.decode()
    assert 'value="2"' in page and 'value="1.5"' in page


def test_more_boxes_show_what_was_typed_as_it_was_typed(us_club, cast, as_):
    sent = {"values": ["2", "1.5"], "values_boxes": "2", "more": "1", "on": "2026-04-16"}
    page = as_("staff").post(at(cast, "take_reading", cast.green.pk, "rooting_depth"), sent).content.decode()
    assert 'value="2"' in page and 'value="1.5"' in page


def test_weather_is_typed_in_fahrenheit_and_inches(us_club, cast, as_):
    sent = {"on": "2026-04-15", "min_c": "41", "max_c": "59", "rain_mm": "0.5"}
    as_("staff").post(at(cast, "weather_day"), sent)
    day = WeatherDay.objects.get()
    assert (day.min_c, day.max_c, day.rain_mm) == (5, 15, Decimal("12.7"))


def test_radii_are_typed_in_feet(us_club, cast, as_):
    sent = {"values_m": "40 40 40 40", "measured_on": "2026-04-16", "part": ""}
    as_("head").post(at(cast, "area", cast.green.pk) + "?how=radii", sent)
    newest = Green.objects.get(pk=cast.green.pk).areas.order_by("-pk").first()
    assert newest.values_m == [12.19, 12.19, 12.19, 12.19]


def stored_figures() -> str:
    return serialize("json", [*Entry.objects.all(), *ReadingSet.objects.all(), *ProgrammeStep.objects.all()])


def test_switching_changes_what_is_read_and_nothing_that_is_stored(cast, as_):
    rows_of(cast.head, cast.establishment)
    before, page = stored_figures(), at(cast, "club")
    particulars = as_("head").get(at(cast, "particulars")).context["form"].initial
    for chosen, sign in ((Units.US, "Mean, °F"), (Units.METRIC, "Mean, °C")):
        sent = particulars | {"units": chosen, "typed_in": Units.METRIC}
        as_("head").post(at(cast, "particulars"), sent)
        assert sign in as_("head").get(page).content.decode()
    assert stored_figures() == before


def test_a_form_opened_before_the_switch_is_read_as_it_was_typed(us_club, cast, as_):
    as_("staff").post(at(cast, "log_work", "cut"), cut(cast, height_mm="8", typed_in="metric"))
    assert Entry.objects.get().details == {"height_mm": 8}


def test_a_form_opened_and_kept_rewrites_nothing(us_club, cast, as_):
    entry = logged(cast, details={"height_mm": 5.5})
    shown = as_("staff").get(at(cast, "correct_entry", entry.pk)).context["form"]["height_mm"].value()
    sent = cut(cast, height_mm=shown, note="dew", seen_revision=1)
    as_("staff").post(at(cast, "correct_entry", entry.pk), sent)
    kept = Entry.objects.get()
    assert (shown, kept.details, kept.note) == ("0.21654", {"height_mm": 5.5}, "dew")


@pytest.mark.parametrize(
    "name", ["green_change", "area", "rebuild_change", "turf", "build", "drains", "particulars", "normals"]
)
def test_boxes_of_a_us_club_ask_for_nothing_metric(name, us_club, cast, as_):
    args = {"green_change": [cast.green.pk], "area": [cast.green.pk], "particulars": [], "normals": []}
    page = as_("head").get(at(cast, name, *args.get(name, [cast.establishment.pk]))).content.decode()
    asked = re.findall(r'class="field__(?:unit|label)"[^>]*>([^<]*)<', page)
    assert asked and not [one for one in asked if re.search(r"\b(mm|m|m²|kg|°C)$", one)]


def test_pages_of_a_us_club_speak_of_inches(us_club, cast, as_):
    rows = rows_of(cast.head, cast.establishment)
    logged(cast, details={"height_mm": 8})
    for name, args in (("diary", []), ("reading", [rows["reading_id"]])):
        page = as_("committee").get(at(cast, name, *args)).content.decode()
        assert re.search(r"\d in\b", page) and not re.search(r"\d mm\b", page), name
    assert "4,844 ft²" in as_("committee").get(at(cast, "record", cast.green.pk)).content.decode()


def test_what_is_laid_is_sod_where_inches_are_read(us_club, cast, as_):
    assert "Sod from a grower" in as_("committee").get(at(cast, "green", cast.green.pk)).content.decode()


def test_the_units_of_one_request_do_not_reach_the_next(us_club, cast, as_):
    as_("head").get(at(cast, "club"))
    assert units.active() == Units.METRIC
