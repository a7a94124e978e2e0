"""Sheets of soil and water: kept as printed, asked of by one extractant alone, taken back and never lost."""

from datetime import timedelta

import pytest

from greens.actions.analysis import keep_analysis
from greens.models import Analysis, TrailLine
from growin.queries import analysis
from tests.entries import at

pytestmark = pytest.mark.django_db
TOO_DEEP = "4000 mm cannot be right; it should lie between 10 and 400 mm."


def sent(**more) -> dict:
    figures = dict.fromkeys(("pH", "K", "P", "Ca", "Mg", "S", "Na", "organic_percent"), "")
    usual = {"on": "2026-04-10", "laboratory": "County", "extractant": "mehlich_3", "depth_mm": "100"}
    return {**figures, **usual, **more}


def soil(cast, days_ago: int = 0, extractant: str = "mehlich_3", **values) -> Analysis:
    return keep_analysis(
        green=cast.green, by=cast.head, kind="soil", on=cast.today - timedelta(days=days_ago), values=values,
        extractant=extractant, depth_mm=100,
    )  # fmt: skip


def shown(cast, client) -> str:
    return client.get(at(cast, "analyses", cast.green.pk)).content.decode()


def test_a_sheet_is_kept_as_it_was_printed(cast, as_):
    answer = as_("head").post(at(cast, "add_soil", cast.green.pk), sent(pH="6,4", K="25"))
    row = Analysis.objects.get()
    assert (answer.status_code, row.values, row.extractant) == (302, {"pH": 6.4, "K": 25.0}, "mehlich_3")
    assert TrailLine.objects.filter(deed="Soil of Seventh analysed").exists()
    assert "potassium (K) 25 ppm" in shown(cast, as_("staff"))


def test_a_soil_below_its_minimum_asks_for_potassium(cast, as_):
    """115 kg N/ha is the middle of the first season's band; half of it belongs with it as K, 18 are short."""
    soil(cast, K=25)
    (one,) = analysis.of_green(cast.green, cast.today).asks
    assert one.kg_ha == pytest.approx(115 / 2 + 18)
    assert "What the soil asks for in a year" in shown(cast, as_("committee"))


def test_another_extractant_is_never_compared(cast, as_):
    soil(cast, extractant="olsen", P=4)
    assert analysis.of_green(cast.green, cast.today).asks == []
    assert "never compared with minimums" in shown(cast, as_("head"))


def test_the_newest_soil_test_counts(cast):
    soil(cast, days_ago=400, K=25)
    soil(cast, K=300)
    (one,) = analysis.of_green(cast.green, cast.today).asks
    assert one.kg_ha == 0


def test_a_rising_ph_warns_of_take_all_and_lime(cast, as_):
    for years_ago, ph in ((4, 5.8), (3, 6.1), (2, 6.4), (1, 6.8), (0, 7.1)):
        soil(cast, days_ago=365 * years_ago, pH=ph)
    page = shown(cast, as_("head"))
    assert "it rises by 0.33 a year" in page
    assert "take-all follows a rising pH: no lime" in page


def test_water_has_figures_of_its_own_and_no_extractant(cast, as_):
    page = as_("head").post(
        at(cast, "add_water", cast.green.pk),
        {"on": "2026-04-10", "laboratory": "", "pH": "7.8", "HCO3": "240", "ec_ds_m": "0.6"},
    )
    row = Analysis.objects.get()
    assert (page.status_code, row.extractant, row.values["HCO3"]) == (302, "", 240)


@pytest.mark.parametrize(
    ("differs", "field", "sentence"),
    [
        ({"pH": "14"}, "pH", "14  cannot be right; it should lie between 3 and 10."),
        ({"K": "lots"}, "K", "'lots' is not a number; write it in figures, such as 12.5."),
        ({"K": "25", "extractant": ""}, "extractant", "This field is required."),
        ({"K": "25", "depth_mm": "4000"}, "depth_mm", TOO_DEEP),
        ({}, "__all__", "sheet: nothing is not possible; it should be at least one figure."),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_and_nothing_is_kept(cast, as_, differs, field, sentence):
    page = as_("head").post(at(cast, "add_soil", cast.green.pk), sent(**differs))
    assert page.context["form"].errors[field] == [sentence]
    assert not Analysis.objects.exists()


def test_only_the_head_greenkeeper_enters_and_takes_back(cast, as_):
    row = soil(cast, K=25)
    assert as_("staff").get(at(cast, "add_soil", cast.green.pk)).status_code == 403
    place = at(cast, "take_back_analysis", row.pk)
    assert [as_(who).post(place).status_code for who in ("staff", "head", "head")] == [403, 302, 404]
    assert Analysis.objects.get().taken_back_at is not None
    assert analysis.of_green(cast.green, cast.today).rows == []
