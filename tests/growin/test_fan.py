"""The opening date as a strip of days: what it says in words, in numbers, as a picture."""

from datetime import date, timedelta
from xml.etree import ElementTree

import pytest
from django.template.loader import render_to_string
from django.urls import reverse

from growin.actions.proposal import propose
from growin.agronomy.climate import Climate
from growin.agronomy.forecast import forecast
from growin.agronomy.programme import GreenFacts
from growin.agronomy.settings_table import default_values
from growin.charts.fan import fan_svg, mixed
from growin.queries.fan import Fan, fan_of
from tests.cast import NORMALS_C

MONDAY = date(2026, 4, 6)
#: Ready on the 20th day with a chance of one half, on the 30th for certain.
STEPPED = tuple([0.0] * 20 + [0.5] * 10 + [1.0] * 30)


def on(number: int) -> date:
    return MONDAY + timedelta(days=number)


def fan(**more) -> Fan:
    usual = {"chances": STEPPED, "p10": on(20), "p50": on(20), "p90": on(30), "proposed": on(25)}
    return Fan(MONDAY, **{**usual, **more})


def drawn(one: Fan, narrow: bool = False):
    return ElementTree.fromstring(fan_svg(one, narrow))


def test_the_likeliest_days_are_the_darkest():
    dark = dict(fan().density)
    assert max(dark.values()) == 1
    assert {day for day, share in dark.items() if share > 0.5} == {
        on(n) for n in (*range(17, 24), *range(27, 34)) if on(n) in dark
    }


def test_the_strip_reaches_from_the_first_chance_to_the_last_and_holds_the_day_in_mind():
    assert fan().span == (on(17), on(33))
    assert fan(proposed=on(50)).span == (on(17), on(50))


def test_the_picture_is_told_in_words():
    assert fan().in_words == (
        "When it may be ready: 1 in 10 by Sun 26 April; as likely as not by Sun 26 April; "
        "9 in 10 by Wed 6 May. By the day in mind, Fri 1 May: about 1 in 2."
    )


def test_days_beyond_the_horizon_are_said_to_be_unknown():
    short = fan(chances=STEPPED[:25], p90=None, proposed=None)
    assert short.in_words.endswith("Chances beyond the days looked at are not known.")
    assert "No day is likely yet" in fan(chances=(0.0,) * 40, p10=None, p50=None, p90=None).in_words


def test_the_table_runs_week_by_week_up_to_certainty():
    rows = fan().weeks
    assert [round(percent) for _, percent, _ in rows] == sorted(round(percent) for _, percent, _ in rows)
    assert rows[-1][1:] == (100, "more than 19 in 20")


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize(
    "more",
    [{}, {"proposed": None}, {"p90": None, "chances": STEPPED[:25]}, {"chances": (0.0,) * 9, "p10": None}],
    ids=["usual", "no day in mind", "beyond the horizon", "no chance at all"],
)
def test_it_draws_whatever_is_known(narrow, more):
    assert drawn(fan(**more), narrow).tag.endswith("svg")


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize("days", [3, 60, 400, 850, 1190])
def test_however_long_the_span_its_days_are_named(days, narrow):
    late = fan(chances=(*[n / days for n in range(days)], 1.0), p90=on(days), proposed=None)
    assert drawn(late, narrow).tag.endswith("svg")


def test_the_colour_runs_from_paper_to_heather():
    """Paper #FBF8F1, heather #6A2E55."""
    assert [round(255 * one) for one in mixed(0)] == [0xFB, 0xF8, 0xF1]
    assert [round(255 * one) for one in mixed(1)] == [0x6A, 0x2E, 0x55]


def test_a_real_forecast_becomes_a_fan():
    facts = GreenFacts(450, "turf_supplied", "fescue/bent", date(2025, 10, 20), 54.0)
    made = forecast(facts, Climate(NORMALS_C), (), (), date(2026, 2, 16), default_values())
    one = fan_of(made, date(2026, 4, 25))
    assert (one.chance_by(made.p50) >= 0.5, one.p10 <= one.p50 <= one.p90) == (True, True)
    assert drawn(one).tag.endswith("svg")
    assert fan_of(None) is None


def test_beside_a_proposal_it_stands_with_alternative_text_and_table():
    shown = render_to_string("growin/proposal/_fan.html", {"fan": fan(), "picture": "fan.svg"})
    assert f'alt="{fan().in_words}"' in shown
    assert "about 1 in 2" in shown
    assert render_to_string("growin/proposal/_fan.html", {"fan": None}).strip() == ""


@pytest.mark.django_db
def test_without_a_forecast_the_page_says_so_instead_of_a_picture(cast, as_):
    row = propose(establishment=cast.establishment, by=cast.committee, opening_on=cast.today, pattern="full")
    cast.establishment.forecasts.all().delete()
    page = as_("staff").get(reverse("fan", args=[cast.club.slug, row.pk]), follow=True)
    assert "There is no forecast yet." in page.content.decode()
