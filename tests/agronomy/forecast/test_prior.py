"""On the first day the forecast says what is published, and no more."""

from datetime import date

import numpy as np
import pytest

from growin.agronomy.forecast import constants
from growin.agronomy.forecast.family import family_of
from growin.agronomy.forecast.greens_drawn import draw_greens, prior_of
from growin.agronomy.settings_table import TABLES
from tests.agronomy.climates import ENGLAND, ENGLAND_MIRRORED
from tests.agronomy.forecast.asked import DAY, FAVOURABLE, HISTORIES, SETTINGS, asked, green

FULL = SETTINGS


def days_from(laid: date, told) -> tuple[int, int]:
    return (told.p10 - laid).days, (told.p90 - laid).days


@pytest.mark.parametrize("sown", [date(2026, 5, 10), date(2026, 5, 20)])
def test_bent_seed_in_favourable_weather_takes_12_to_16_weeks(sown):
    """USGA Green Section 2008, 2018, 2019: 12–16 weeks of favourable growing weather, 84–120 days."""
    told = asked(green("seed", "creeping bent", sown, 41), FAVOURABLE, settings=FULL)
    least, most = days_from(sown, told)
    assert (least <= 84, most >= 120) == (True, True), (least, most)
    assert 84 <= (told.p50 - sown).days <= 120


def test_turf_in_growth_takes_about_half_of_that():
    """USGA Green Section 2018: roughly half, 42–60 days; the adviser agrees to a gate of 4 weeks."""
    laid = date(2026, 5, 20)
    facts = green("turf_supplied", "creeping bent", laid, 41)
    least, most = days_from(laid, asked(facts, FAVOURABLE, settings=FULL, adviser_agrees=True))
    assert (least <= 42, most >= 60) == (True, True), (least, most)
    assert asked(facts, FAVOURABLE).p10 >= laid + 56 * DAY


@pytest.mark.parametrize("laid", [date(2025, 10, 10), date(2025, 11, 10), date(2025, 12, 3)])
def test_turf_of_a_british_autumn_opens_in_mid_to_late_april(laid):
    """BIGGA 2004, British trade press: down by the first week of December, open mid to late April."""
    told = asked(green(on=laid), ENGLAND, settings=FULL)
    assert told.p10 <= date(2026, 4, 12) and told.p90 >= date(2026, 4, 30), (told.p10, told.p90)
    assert date(2026, 4, 10) <= told.p50 <= date(2026, 4, 30)


def test_in_the_south_it_opens_six_months_later():
    """The same place and day of the year on the other side of the equator."""
    told = asked(green(on=date(2025, 5, 10), latitude=-54.0), ENGLAND_MIRRORED, settings=FULL)
    assert told.p10 <= date(2025, 10, 12) and told.p90 >= date(2025, 10, 30), (told.p10, told.p90)


@pytest.mark.parametrize("sown", [date(2025, 8, 25), date(2025, 9, 10)])
def test_fescue_and_bent_from_seed_takes_about_18_months_in_britain(sown):
    """Common practice 12–24 months, about 18; links fescue 24–33 months, STRI."""
    told = asked(green("seed", "fescue/bent", sown), ENGLAND, settings=FULL)
    least, most = days_from(sown, told)
    assert (least <= 12 * 30.44, most >= 24 * 30.44, least <= 548 <= most) == (True, True, True), (
        least,
        most,
    )


@pytest.mark.parametrize("history", HISTORIES, ids=lambda one: one["id"])
def test_an_open_history_lies_within_its_interval(history):
    """Four real openings on normals of their places; the other histories are not known here."""
    laid = date.fromisoformat(history["green"]["established_on"])
    said = history["green"]
    facts = green(said["establishment"], said["species"], laid, said["latitude_deg"])
    told = asked(facts, history["normals_c"], settings=FULL)
    assert told.p10 <= date.fromisoformat(history["opened_on"]) <= told.p90


@pytest.mark.parametrize(
    "facts",
    [
        green(),
        green("turf_supplied", "creeping bent", date(2026, 5, 1)),
        green("seed", "creeping bent", date(2026, 5, 1)),
        green("seed", "annual meadow grass", date(2026, 5, 1)),
        green("seed", "fescue/bent", date(2026, 5, 1)),
        green("seed", "fine fescue", date(2026, 5, 1)),
    ],
    ids=lambda one: f"{one.establishment} {one.species}",
)
def test_the_last_criterion_has_the_published_spread_however_many_there_are(facts):
    family = family_of(facts, SETTINGS)
    greens = draw_greens(family, SETTINGS, 40_000, np.random.default_rng(1))
    last = greens.ready.max(axis=0)
    early, late = (SETTINGS[f"forecast.{family.key}.{end}"] for end in ("early", "late"))
    np.testing.assert_allclose(np.quantile(last, [0.1, 0.9]), [early, late], rtol=0.02)
    assert (greens.ready > 0).all()
    assert prior_of(family, SETTINGS)[0] == pytest.approx((early * late) ** 0.5)


def test_the_constants_are_settings_that_a_club_may_change():
    assert ("Forecast", constants.DEFAULTS) in TABLES
    slow = SETTINGS | {"forecast.turf_autumn.early": 900, "forecast.turf_autumn.late": 2000}
    assert asked(settings=slow | {"forecast.weather.paths": 200}).p50 > asked().p50
