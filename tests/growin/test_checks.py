"""How the sums are checked, and what the greens need in water, on their pages."""

import re
from datetime import timedelta

from growin.forms.sums import SUMS
from growin.queries.checks import all_checks
from tests.growin.test_water import dry_days


def test_every_example_agrees():
    checks = all_checks()
    assert (checks.agreeing, checks.examples, len(checks.checked)) == (174, 174, 48)


def test_how_the_sums_are_checked_shows_every_example_live(cast, as_):
    found = as_("committee").get(f"/clubs/{cast.club.slug}/sums/checked/").content.decode()
    assert "174 of 174 worked examples come out as printed" in found
    assert found.count('class="example"') == 174
    # Brede 1990: 7 ft up and 12 ft down are 8.84 ft, 2.69 m
    assert 'id="green_speed"' in found
    assert "2 × uphill × downhill ÷ (uphill + downhill)" in found
    linked = set(re.findall(r'href="#([\w.]+)"', found))
    assert linked <= set(re.findall(r'id="([\w.]+)"', found))


def test_every_sum_leads_to_its_check(cast, as_):
    checked = as_("staff").get(f"/clubs/{cast.club.slug}/sums/checked/").content.decode()
    for one in SUMS.values():
        assert f'id="{one.checked}"' in checked


def test_what_each_green_needs_in_water_stands_on_a_page(cast, as_):
    dry_days(cast.club, 10)
    found = as_("staff").get(f"/clubs/{cast.club.slug}/water/").content.decode()
    assert "Seventh" in found
    assert "Hargreaves" in found
    assert "Due" in found


def test_the_page_of_water_asks_the_database_alike_for_one_day_and_for_many(
    cast, as_, django_assert_max_num_queries
):
    dry_days(cast.club, 40, until=cast.today - timedelta(days=1))
    client = as_("staff")
    with django_assert_max_num_queries(14):
        client.get(f"/clubs/{cast.club.slug}/water/")
