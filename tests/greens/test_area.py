"""The area of a green in three ways, held against printed examples."""

from math import pi
from statistics import fmean

import pytest
from django.urls import reverse

from greens.actions.area import measure_area
from greens.choices import AreaMethod
from greens.models import Area, TrailLine

pytestmark = pytest.mark.django_db

# Putting-green measuring sheet: sixteen radii in feet with the printed 305.27 ft² (28.36 m²).
SHEET_RADII_FT = (7.1, 8.9, 9.7, 10.9, 12.4, 11.7, 11.8, 9.9, 6.8, 8.2, 9.7, 10.4, 12, 11.4, 8.9, 8)
# Surveying course notes, areas from offsets to a base line, Example 1 by trapezia: 460.75 m².
COURSE_WIDTHS_M = "3.15 4.3 8.2 5.6 6.85 7.6 4.2 5.6 4.3"


def measured(cast, client, how: str, **form):
    address = reverse("area", args=[cast.club.slug, cast.green.pk])
    return client.post(f"{address}?how={how}", {"measured_on": "2026-04-16", "part": ""} | form)


def test_offsets_make_the_area_of_the_printed_example(cast, as_):
    measured(cast, as_("head"), "offsets", values_m=COURSE_WIDTHS_M, spacing_m="10")
    cast.green.refresh_from_db()
    assert cast.green.area_m2 == 460.75


def test_the_page_says_how_far_the_published_sum_of_radii_is_off(cast, as_):
    """The sheet prints 28.36 m² (with pi as 3.14); by hand, pi times the mean of the squares is 29.25 m²."""
    head, radii = as_("head"), [round(feet * 0.3048, 2) for feet in SHEET_RADII_FT]
    measured(cast, head, "radii", values_m=" ".join(map(str, radii)))
    page = " ".join(head.get(reverse("area", args=[cast.club.slug, cast.green.pk])).content.decode().split())
    sectors_m2, average_m2 = pi * fmean(one**2 for one in radii), pi * fmean(radii) ** 2
    assert f"as sectors of circles, {sectors_m2:.1f} m²" in page
    assert "gives 28.4 m²" in page
    assert f"{(1 - average_m2 / sectors_m2) * 100:.1f} % too low for these radii" in page


def test_a_round_green_is_the_same_by_both_sums(cast, as_):
    head = as_("head")
    measured(cast, head, "radii", values_m="8, 8, 8, 8, 8, 8, 8, 8")
    page = " ".join(head.get(reverse("area", args=[cast.club.slug, cast.green.pk])).content.decode().split())
    assert "gives 201.1 m²: the same for these radii." in page


def test_changing_the_area_leaves_a_line_with_from_and_to(cast, as_):
    measured(cast, as_("head"), "typed", area_m2="512.5")
    cast.green.refresh_from_db()
    assert cast.green.area_dm2 == 51_250
    line = TrailLine.objects.get(noun="area")
    assert line.changes["green_area_dm2"] == [45_000, 51_250]


def test_the_area_of_a_part_leaves_that_of_the_green(cast, as_):
    measured(cast, as_("head"), "typed", area_m2="40", part="apron")
    cast.green.refresh_from_db()
    assert (cast.green.area_m2, Area.objects.get().part) == (450, "apron")


def test_an_older_measurement_does_not_displace_a_newer_one(cast):
    for on, area_m2 in ((cast.today, 500), (cast.today.replace(year=2020), 430)):
        measure_area(green=cast.green, by=cast.head, method=AreaMethod.TYPED, area_m2=area_m2, measured_on=on)
    cast.green.refresh_from_db()
    assert cast.green.area_m2 == 500


@pytest.mark.parametrize(
    ("how", "form", "sentence"),
    [
        ("typed", {"area_m2": "-4"}, "-4 m² cannot be right"),
        ("typed", {"area_m2": "large"}, "is not a number"),
        ("typed", {"area_m2": "450", "measured_on": "2027-01-01"}, "lies in the future"),
        ("radii", {"values_m": "8 9"}, "number of radii: 2 is not possible; it should be at least 3"),
        ("radii", {"values_m": "8 -9 8"}, "-9 m cannot be right; a radius should lie between"),
        ("radii", {"values_m": "8 nine 8"}, "‘nine’ is not a figure in m"),
        ("offsets", {"values_m": "0 0 0", "spacing_m": "3"}, "These figures make 0.0 m²"),
        ("offsets", {"values_m": "4 5", "spacing_m": "0"}, "0 m cannot be right"),
        ("radii", {"values_m": "8 " * 600}, "at most 500 can be kept"),
    ],
)
def test_what_makes_no_area_is_refused_with_a_sentence(cast, as_, how, form, sentence):
    page = measured(cast, as_("head"), how, **form)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert not Area.objects.exists()
