"""What work brought: products against print, areas of the day, limits said beside the entry."""

from datetime import date, timedelta
from decimal import Decimal

import pytest

from greens.actions.setting import override
from greens.models import WeatherDay
from growin.agronomy import amounts
from tests.cast import laid_green
from tests.entries import brought, label, logged

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("lines", "rate_g_m2", "kg_ha", "tolerance_kg_ha"),
    [
        # Grounds Management Association, Fertiliser programmes - nitrogen, example golf-green programme:
        # 50 g/m² of a 14 % bag, printed as 7 g N/m²; 35 g/m² of an 8 % bag, printed as 2.8.
        ({"N_total": 14}, 50, {"N": 70}, {"N": 0.5}),
        ({"N_total": 8}, 35, {"N": 28}, {"N": 0.5}),
        # Practice note (fertiliser supplier's nutrient input guidance): 25 g/m² of 5-5-15, printed as
        # oxides 12.5, 12.5 and 37.5 kg/ha; here as elements.
        (
            {"N_total": 5, "P2O5": 5, "K2O": 15},
            25,
            {"N": 12.5, "P": 5.45535875, "K": 31.1306325},
            {"N": 0.05, "P": 0.02182, "K": 0.04151},
        ),
    ],
)
def test_a_bag_brings_what_print_says(cast, lines, rate_g_m2, kg_ha, tolerance_kg_ha):
    bag = label(cast, lines=lines)
    amount = amounts.whole_amount(rate_g_m2, amounts.PER_M2, cast.green.area_dm2)
    entry = logged(cast, "feed", products=[(bag, amount)])
    found = {element: mg_m2 / 100 for element, mg_m2 in brought(entry).items()}
    assert found.keys() == kg_ha.keys()
    assert all(abs(found[element] - kg_ha[element]) <= tolerance_kg_ha[element] for element in kg_ha)


def test_litres_a_hectare_bring_what_print_says(cast):
    # Practice note (fertiliser supplier's nutrient input guidance): 40 l/ha of 18 % w/v, 7.2 kg N/ha.
    can = label(cast, kind="liquid", lines={"N_total": 18}, unit="ml", basis="w/v")
    amount = amounts.whole_amount(40, amounts.PER_HA, cast.green.area_dm2)
    entry = logged(cast, "feed", products=[(can, amount)], details={"form": "foliar"})
    assert (amount, brought(entry)) == (1_800, {"N": 720})


def test_product_for_a_rate_is_the_printed_one():
    # University of Massachusetts Extension, Rotary spreader calibration procedures: 5 lb (2.26796 kg) of a
    # 20 % bag on 1,000 ft² (92.903 m²); 24.412 g/m² is that rate.
    assert amounts.whole_amount(Decimal("24.4121382"), amounts.PER_M2, 9_290) == 2_268


def test_a_depth_of_sand_is_the_printed_mass():
    # Woods, 2017: 1 mm on 1 m² is 1 litre and 1.5 kg.
    assert amounts.whole_amount(1, amounts.DEPTH_MM, 100, Decimal("1.5")) == 1_500
    assert amounts.depth_in_words(1_500, 100, Decimal("1.5")) == "1 mm"


def test_a_tank_mix_over_two_greens_adds_up_exactly(cast):
    other = laid_green(cast.club, "Practice green", area_m2=310)
    feed = label(cast, "Ammonium", kind="liquid", lines={"N_total": 8}, unit="ml", basis="w/v")
    iron = label(cast, "Iron", kind="liquid", lines={"Fe": 6, "N_total": 2}, unit="ml", basis="w/v")
    entry = logged(cast, "feed", greens=[cast.green, other.green], products=[(feed, 7_601), (iron, 3_799)])
    # By hand: 7,601 ml x 80 mg/ml / 760 m² = 800.1…; 3,799 x 20 / 760 = 99.97…; 3,799 x 60 / 760 = 299.9….
    assert brought(entry) == {"N": 800 + 100, "Fe": 300}
    assert [(line.green.name, line.area_dm2) for line in entry.lines.all()] == [
        ("Seventh", 45_000),
        ("Practice green", 31_000),
    ]
    assert [product.amount for product in entry.products.all()] == [7_601, 3_799]


def test_the_area_is_the_one_of_that_day(cast):
    bag = label(cast, lines={"N_total": 12})
    cast.green.areas.create(method="typed", area_dm2=40_000, measured_on=date(2025, 11, 1), by=cast.head)
    cast.green.areas.create(method="typed", area_dm2=45_000, measured_on=date(2026, 4, 1), by=cast.head)
    then = logged(cast, "feed", on=date(2026, 3, 20), products=[(bag, 10_000)])
    now = logged(cast, "feed", products=[(bag, 10_000)])
    assert (then.area_dm2, now.area_dm2) == (40_000, 45_000)


def test_sixty_kilograms_that_were_spread_are_kept_and_marked(cast):
    bag = label(cast, lines={"N_total": 12})
    entry = logged(cast, "feed", products=[(bag, 22_500)])
    assert brought(entry) == {"N": 6_000}
    assert entry.over_limit == ["60 kg N/ha is over the limit of 49 kg N/ha for one dose."]


def test_the_limit_in_force_on_the_day_counts(cast):
    override(
        club=cast.club,
        by=cast.head,
        key="feeding.dose.never_n_kg_ha",
        value=25,
        why="local rule",
        in_force_from=cast.today,
    )
    bag = label(cast, lines={"N_total": 12, "N_slow": 12})
    before = logged(cast, "feed", on=cast.today - timedelta(days=1), products=[(bag, 11_250)])
    after = logged(cast, "feed", products=[(bag, 11_250)])
    assert after.over_limit == ["30 kg N/ha is over the limit of 25 kg N/ha for one dose."]
    assert before.over_limit == ["30 kg N/ha: above 25 kg N/ha give a reason and use slow-release nitrogen."]


def test_feeding_near_water_and_on_cold_soil_is_said(cast):
    cast.green.distance_to_water_m = 2
    cast.green.save()
    WeatherDay.objects.create(club=cast.club, on=cast.today, soil_100_c=Decimal("4.5"))
    bag = label(cast, lines={"N_total": 12})
    entry = logged(cast, "feed", products=[(bag, 1_875)])
    assert entry.over_limit == [
        "The soil is at 4.5 °C; under 6 °C grass takes up next to nothing.",
        "Water lies 2 m from Seventh: nothing is fed within 3 m of it.",
    ]


def test_sand_of_the_season_is_counted_towards_its_limit(cast):
    sand = label(cast, kind="sand", bulk_density_t_m3=Decimal("1.6"))
    for day in (1, 2, 3, 4):
        logged(cast, "dressing", on=date(2026, 4, day), products=[(sand, 1_260_000)])
    entry = logged(cast, "dressing", products=[(sand, 450_000)])
    assert entry.over_limit == ["With this the season stands at 12.2 kg/m², over the usual 12 kg/m²."]
