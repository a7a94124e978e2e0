"""What a green's rootzone still holds, from the record, and what to give it."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.template.loader import render_to_string

from greens.choices import LayerKind, MaterialKind
from greens.models import Entry, EntryGreen, Layer, Material, ReadingSet, Setting, WeatherDay
from growin.agronomy.day_water import HARGREAVES, PENMAN_MONTEITH
from growin.agronomy.evapotranspiration import hargreaves_evapotranspiration
from growin.queries.water import NO_WEATHER, asked_by_day, need, needs
from tests.cast import laid_green

TODAY = date(2026, 4, 16)


def weather(club, on, **more):
    figures = {"min_c": Decimal(4), "max_c": Decimal(14), "rain_mm": Decimal(0)} | more
    return WeatherDay.objects.create(club=club, on=on, **figures)


def dry_days(club, count, until=TODAY):
    for back in range(count):
        weather(club, until - timedelta(days=back))


def watered(cast, on, green=None, kind="water", **details):
    entry = Entry.objects.create(
        club=cast.club, kind=kind, on=on, done_by=cast.staff, logged_by=cast.staff, details=details
    )
    EntryGreen.objects.create(entry=entry, green=green or cast.green, kind=kind, on=on, area_dm2=45_000)


def read(cast, measure, values, on=TODAY - timedelta(days=20)):
    return ReadingSet.objects.create(
        club=cast.club, green=cast.green, establishment=cast.establishment, measure=measure, on=on,
        taken_by=cast.staff, logged_by=cast.staff, values=values,
    )  # fmt: skip


def setting(cast, key, value, green=None):
    return Setting.objects.create(
        club=cast.club,
        green=green,
        key=key,
        value=value,
        in_force_from=date(2026, 1, 1),
        by=cast.head,
        why="-",
    )


def daily_mm(on):
    """FAO 56, Eq. 52 and Table 12: the water that turf asks of a day between 4 and 14 °C at 54° north."""
    return 0.95 * float(hargreaves_evapotranspiration(4, 14, 54, on.timetuple().tm_yday))


def test_two_dry_days_after_a_soaking_are_two_days_of_water(cast):
    weather(cast.club, TODAY - timedelta(days=2), rain_mm=Decimal(40))
    dry_days(cast.club, 2)
    now = need(cast.green, TODAY).now
    used = sum(daily_mm(TODAY - timedelta(days=back)) for back in (0, 1, 2))
    assert now.depletion_mm == pytest.approx(used, abs=1e-6)
    assert now.full_on == TODAY - timedelta(days=2)


def test_a_dry_spell_makes_it_due_and_says_how_much(cast):
    weather(cast.club, TODAY - timedelta(days=6), rain_mm=Decimal(40))
    dry_days(cast.club, 6)
    found = need(cast.green, TODAY)
    assert found.is_due
    # 75 % evenness: a third more than the roots get; on 450 m²
    assert found.gross_mm == pytest.approx(found.net_mm / 0.75)
    assert found.volume_m3 == pytest.approx(found.gross_mm * 0.45)
    assert found.words == f"Water {found.gross_mm:.1f} mm ({found.volume_m3:.1f} m³ of water) in 3 goes"


def test_irrigation_counts_like_rain(cast):
    dry_days(cast.club, 10)
    yesterday = TODAY - timedelta(days=1)
    watered(cast, yesterday, depth_mm=3)
    watered(cast, yesterday, kind="hand_water", depth_mm=1)
    irrigated = need(cast.green, TODAY).now
    Entry.objects.all().delete()
    WeatherDay.objects.filter(on=yesterday).update(rain_mm=4)
    assert need(cast.green, TODAY).now == irrigated


def test_hand_watering_of_one_place_and_water_taken_back_do_not_count(cast):
    dry_days(cast.club, 10)
    before = need(cast.green, TODAY).now.depletion_mm
    watered(cast, TODAY, kind="hand_water", depth_mm=5, place="front left")
    watered(cast, TODAY, depth_mm=5)
    Entry.objects.filter(kind="water").update(taken_back_at="2026-04-16T08:00Z")
    assert need(cast.green, TODAY).now.depletion_mm == before


def test_what_nobody_wrote_down_is_said(cast):
    dry_days(cast.club, 3)
    watered(cast, TODAY)
    assert need(cast.green, TODAY).assumed == (
        "Rootzone taken to hold 20 %: no sheet on record.",
        "Roots taken as 100 mm deep: none read yet.",
        "42 days without weather taken as usual and dry.",
        "1 watering without a depth not counted.",
    )


def test_the_record_counts_before_the_settings(cast):
    mix = Material.objects.create(
        club=cast.club, kind=MaterialKind.ROOTZONE, name="Mix", capillary_percent=Decimal("17.5")
    )
    Layer.objects.create(establishment=cast.establishment, kind=LayerKind.ROOTZONE, material=mix)
    read(cast, "rooting_depth", [60, 70, 80])
    dry_days(cast.club, 3)
    found = need(cast.green, TODAY)
    assert found.store == (17.5, 5, 70)
    assert found.now.total_mm == pytest.approx(8.75)
    assert found.assumed == ("42 days without weather taken as usual and dry.",)


def test_a_reading_of_moisture_sets_where_the_balance_starts(cast):
    dry_days(cast.club, 45)
    read(cast, "moisture", [13, 15], on=TODAY)
    now = need(cast.green, TODAY).now
    # 6 % of 100 mm are 6 mm, and the day itself
    assert now.depletion_mm == pytest.approx(6 + daily_mm(TODAY), abs=0.01)
    assert now.estimated_days == 0


def test_fresh_turf_lives_on_little(cast):
    young = laid_green(cast.club, "Ninth", established_on=TODAY - timedelta(days=10))
    dry_days(cast.club, 5)
    found = need(young.green, TODAY)
    assert found.store.root_depth_mm == 25
    assert found.is_due


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("water.turf_coefficient_cool", 0.7),
        ("water.field_capacity_percent", 30),
        ("water.wilting_percent", 10),
        ("water.depletion_share", 0.6),
        ("water.root_depth_mm", 60),
        ("water.look_back_days", 20),
    ],
)
def test_every_setting_has_effect(cast, key, value):
    weather(cast.club, TODAY - timedelta(days=2), rain_mm=Decimal(3))
    dry_days(cast.club, 2)
    before = need(cast.green, TODAY).now
    setting(cast, key, value, green=cast.green)
    assert need(cast.green, TODAY).now != before


def test_evenness_as_last_checked_sets_how_much_to_put_on(cast):
    dry_days(cast.club, 20)
    watered(cast, TODAY, kind="irrigation_check", uniformity_percent=60)
    found = need(cast.green, TODAY)
    assert found.gross_mm == pytest.approx(found.net_mm / 0.6)


def test_without_weather_it_is_not_known(cast):
    found = need(cast.green, TODAY)
    assert (found.now, found.words, found.why, found.is_due) == (None, NO_WEATHER, "", False)


def test_after_days_without_weather_nothing_is_said_but_why(cast):
    dry_days(cast.club, 5, until=TODAY - timedelta(days=3))
    assert need(cast.green, TODAY).now is not None
    found = need(cast.green, TODAY + timedelta(days=1))
    assert (found.now, found.is_due) == (None, False)
    assert found.words == ("Not known: the last day with its lowest and highest temperature is Mon 13 April.")


def test_nothing_laid_needs_nothing(cast):
    bare = laid_green(cast.club, "Ninth", established_on=None)
    assert need(bare.green, TODAY) is None
    assert [one.green.name for one in needs(cast.club, TODAY)] == ["Seventh"]


def test_each_day_is_worked_out_by_what_was_read(cast):
    weather(cast.club, TODAY, humidity_percent=70, wind_m_s=Decimal(4), sunshine_h=Decimal(8))
    weather(cast.club, TODAY - timedelta(days=1))
    weather(cast.club, TODAY - timedelta(days=2), max_c=None)
    found = asked_by_day(cast.club, TODAY - timedelta(days=7), TODAY)
    assert [one.on.day for one in found] == [16, 15, 14]
    assert [one.asked and one.asked.method for one in found] == [PENMAN_MONTEITH, HARGREAVES, None]


def test_those_due_stand_first_and_the_queries_are_fixed(cast, django_assert_num_queries):
    dry_days(cast.club, 10)
    watered(cast, TODAY, depth_mm=30)
    for number in range(3):
        laid_green(cast.club, f"Green {number}")
    with django_assert_num_queries(8):
        found = needs(cast.club, TODAY)
    assert [one.is_due for one in found] == [True, True, True, False]
    assert found[-1].green == cast.green


def test_another_club_waters_for_itself(cast):
    dry_days(cast.club, 10)
    assert need(cast.other_green, TODAY).now is None


def test_the_line_for_a_page_says_it_in_words(cast):
    dry_days(cast.club, 10)
    found = need(cast.green, TODAY)
    page = render_to_string("growin/water/_need.html", {"need": found})
    assert found.words in page
    assert "Due" in page
