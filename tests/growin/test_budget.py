"""What a green may still have: summed from the diary, beside plan, band and limit."""

import random
from datetime import date, timedelta

import pandas as pd
import pytest

from greens.models import Club, Entry
from growin.actions.programme import issue_programme
from growin.queries import budget, sand_budget
from tests.cast import laid_green
from tests.entries import at, label, logged

pytestmark = pytest.mark.django_db
AREA_M2 = 450


def fed(cast, one, kg_ha: float, percent: float, days_ago: int = 0, **more):
    grams = round(kg_ha / 10 * AREA_M2 / (percent / 100))
    return logged(cast, "feed", on=cast.today - timedelta(days=days_ago), products=[(one, grams)], **more)


def known(cast, element: str = "N") -> budget.Budget:
    return budget.of_rebuild(cast.establishment, element, cast.today)


def dressed(cast, kg_m2: float, days_ago: int = 0, one=None):
    one = one or label(cast, f"Sand {days_ago}", kind="sand", bulk_density_t_m3="1.6")
    grams = round(kg_m2 * AREA_M2 * 1000)
    return logged(cast, "dressing", on=cast.today - timedelta(days=days_ago), products=[(one, grams)])


def test_a_season_is_summed_and_held_against_its_band(cast):
    """Turf from a grower: 80 to 150 kg N/ha in its first season (trade practice)."""
    one = label(cast, lines={"N_total": 10})
    fed(cast, one, 40, 10, days_ago=60)
    fed(cast, one, 12, 10, days_ago=5)
    found = known(cast)
    assert (found.first, found.last) == (date(2025, 9, 8), date(2026, 10, 19))
    assert (found.so_far, found.lately, found.band) == (pytest.approx(52), pytest.approx(12), (80, 150))
    assert found.may_still == pytest.approx(98)


def test_the_clubs_own_limit_counts_where_it_is_lower(cast):
    Club.objects.filter(pk=cast.club.pk).update(year_limit_n_kg_ha=60)
    cast.establishment.green.club.refresh_from_db()
    fed(cast, label(cast, lines={"N_total": 10}), 52, 10)
    found = known(cast)
    assert (found.bound.most, found.stands) == (60, "close to")


def test_what_is_planned_yet_comes_from_the_steps_that_nobody_answered(cast):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    found = known(cast)
    assert found.to_come > 0
    assert found.unplanned == pytest.approx(found.may_still - found.to_come)
    last = cast.today - timedelta(days=14)
    assert found.to_come == pytest.approx(sum(kg for on, kg in found.planned if last <= on <= found.last))


def test_slow_nitrogen_is_bound_until_its_weeks_are_over(cast):
    """A label with 12 % slow of 20 %, over 10 weeks: after 5 weeks half of the slow part is free."""
    one = label(cast, lines={"N_slow": 12, "N_urea": 8}, release_weeks=10)
    fed(cast, one, 20, 20, days_ago=35)
    assert known(cast).still_bound == pytest.approx(6)


def test_potassium_is_shown_beside_what_belongs_with_the_nitrogen_and_as_an_oxide(cast, as_):
    """K2O is 83 % potassium; half of the nitrogen taken up belongs with it (Woods)."""
    one = label(cast, lines={"N_total": 10, "K2O": 10})
    fed(cast, one, 40, 10)
    found = known(cast, "K")
    assert found.so_far == pytest.approx(40 * 0.83015, abs=0.01)
    assert (found.belongs, found.band) == (pytest.approx(20), None)
    page = as_("head").get(at(cast, "budget", cast.green.pk), {"of": "K", "as": "oxide"}).content.decode()
    assert "Potassium, as K2O: 40 kg/ha in its first season" in page


def test_what_was_raked_in_before_the_turf_came_counts_and_what_the_old_green_had_does_not(cast):
    one = label(cast, lines={"N_total": 10})
    fed(cast, one, 8, 10, days_ago=190)
    old = fed(cast, one, 40, 10, days_ago=190)
    for rows in (Entry.objects.filter(pk=old.pk), old.lines):
        rows.update(on=cast.today - timedelta(days=300))
    assert known(cast).so_far == pytest.approx(8)


def test_the_ledger_adds_up_as_a_table_of_its_own_does(cast):
    """An independent sum: pandas groups what was logged, exact to the milligram."""
    draw, rows = random.Random(17), []
    labels = [label(cast, f"Feed {n}", lines={"N_total": 5 + n, "K2O": 3 * n}) for n in range(4)]
    greens = [
        cast.establishment,
        laid_green(cast.club, "Eighth", area_m2=380),
        laid_green(cast.club, "Ninth"),
    ]
    for _ in range(60):
        chosen = draw.sample(greens, draw.randint(1, 3))
        one, on = draw.choice(labels), cast.today - timedelta(days=draw.randint(0, 150))
        entry = logged(
            cast,
            "feed",
            on=on,
            greens=[row.green for row in chosen],
            products=[(one, draw.randint(200, 9000))],
        )
        n_mg = sum(
            row.mg_m2 for product in entry.products.all() for row in product.nutrients.filter(element="N")
        )
        rows += [{"green": row.green_id, "on": on, "mg_m2": n_mg} for row in chosen]
    expected = pd.DataFrame(rows).groupby("green")["mg_m2"].sum()
    lately = pd.DataFrame(rows).query("on >= @since", local_dict={"since": cast.today - timedelta(days=30)})
    lately = lately.groupby("green")["mg_m2"].sum()
    for found in budget.of_club(cast.club, "N", cast.today):
        assert round(found.so_far * 100) == expected[found.green.pk]
        assert round(found.lately * 100) == lately.get(found.green.pk, 0)


def test_sand_is_told_in_depth_volume_and_mass(cast):
    """1.6 kg/m² of sand at 1.6 t/m³ lies 1 mm deep: 0.45 m³ and 0.72 t on 450 m² (unit identity)."""
    dressed(cast, 1.6, days_ago=10)
    dressed(cast, 0.8)
    found = sand_budget.of_rebuild(cast.establishment, cast.today)
    assert (found.kg_m2, found.mm) == (pytest.approx(2.4), pytest.approx(1.5))
    assert (found.m3, found.t) == (pytest.approx(0.675), pytest.approx(1.08))
    assert found.band == (6, 12)


def test_a_dressing_a_few_days_late_is_still_to_come(cast):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    due, kg_m2 = min(sand_budget.of_rebuild(cast.establishment, cast.today).rest)
    in_time, late = (sand_budget.of_rebuild(cast.establishment, due + timedelta(days=n)) for n in (0, 7))
    assert late.to_come == pytest.approx(in_time.to_come)
    assert late.to_come >= kg_m2


def test_last_years_sand_is_last_years(cast):
    dressed(cast, 1.6, days_ago=150)
    assert sand_budget.of_rebuild(cast.establishment, cast.today).kg_m2 == 0


def test_hollow_tines_open_a_share_of_the_year(cast):
    """13 mm tines at 50 × 50 mm open 5.3 % (USGA Green Section aeration chart)."""
    pattern = {"kind": "hollow", "tine_diameter_mm": 13, "spacing_mm": 50, "row_spacing_mm": 50}
    logged(cast, "aerate", details=pattern)
    logged(cast, "aerate", details=pattern, on=cast.today - timedelta(days=20))
    logged(cast, "aerate", details={"kind": "solid"})
    found = sand_budget.of_rebuild(cast.establishment, cast.today)
    assert found.cored_percent == pytest.approx(2 * 5.309, abs=0.01)


@pytest.mark.parametrize("greens", [1, 3])
def test_the_page_of_all_greens_costs_the_same_however_many(cast, as_, greens, django_assert_num_queries):
    one = label(cast, lines={"N_total": 10})
    for n in range(1, greens):
        laid_green(cast.club, f"Green {n}")
    fed(cast, one, 10, 10)
    client = as_("committee")
    with django_assert_num_queries(16):
        client.get(at(cast, "budgets"))


@pytest.mark.parametrize(
    "query", [{"of": "Xx"}, {"of": "N", "as": "oxide"}, {"of": "'; --"}, {"as": "9" * 999}]
)
def test_whatever_is_asked_for_a_page_answers(cast, as_, query):
    assert as_("staff").get(at(cast, "budget", cast.green.pk), query).status_code == 200


def test_a_picture_of_a_nutrient_that_there_is_not_does_not_exist(cast, as_):
    assert as_("staff").get(at(cast, "budget_picture", cast.green.pk, "Au")).status_code == 404


def test_before_laying_nothing_is_said(cast, as_):
    cast.establishment.established_on = None
    cast.establishment.save()
    page = as_("head").get(at(cast, "budget", cast.green.pk)).content.decode()
    assert "It is not laid or sown yet" in page
    assert "No green is laid or sown yet." in as_("head").get(at(cast, "budgets")).content.decode()
