"""This season's warmth beside a normal one and the club's earlier ones."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.urls import reverse

from greens.models import Club, WeatherDay
from growin.agronomy.climate import Climate, degree_days
from growin.agronomy.warmth import seasons
from growin.charts.season import season_svg
from growin.queries.season import season
from tests.cast import NORMALS_C

LEAF = degree_days(6)
ON = date(2026, 4, 16)


def days(first: date, last: date, mean_c: float) -> dict[date, float]:
    return {first + timedelta(days=n): mean_c for n in range((last - first).days + 1)}


class TestSums:
    def test_a_measured_day_adds_what_it_has_above_the_base(self):
        """106 days to 16 April, each 3 °C above the base of 6."""
        measured = Climate(NORMALS_C, daily=days(date(2026, 1, 1), ON, 9))
        this = seasons(measured, LEAF, ON, 54).this
        assert (this.start, len(this.sums), round(this.sums[-1], 6)) == (date(2026, 1, 1), 106, 318)

    def test_a_season_without_a_measured_day_runs_as_a_normal_one(self):
        found = seasons(Climate(NORMALS_C), LEAF, ON, 54)
        assert found.this.sums.tolist() == found.normal[:106].tolist()
        assert (found.this.is_measured.any(), found.earlier) == (False, ())

    def test_the_same_as_day_by_day(self):
        """The array does what the climate's own sum does, gaps and all."""
        climate = Climate(NORMALS_C, daily=days(date(2026, 1, 1), date(2026, 2, 10), 7.3))
        slow = climate.sum_between(LEAF, date(2026, 1, 1), ON + timedelta(days=1))
        assert seasons(climate, LEAF, ON, 54).this.sums[-1] == pytest.approx(slow, rel=1e-12)

    def test_south_of_the_equator_a_season_begins_in_july(self):
        this = seasons(Climate(NORMALS_C), LEAF, ON, -38).this
        assert (this.start, this.years) == (date(2025, 7, 1), "2025/26")

    def test_an_earlier_season_needs_four_days_in_five(self):
        whole, scant = (
            days(date(2024, 1, 1), date(2024, 12, 30), 9),
            days(date(2025, 1, 1), date(2025, 9, 1), 9),
        )
        found = seasons(Climate(NORMALS_C, daily=whole | scant), LEAF, ON, 54)
        assert [run.years for run in found.earlier] == ["2024"]

    def test_how_many_were_behind(self):
        daily = {}
        for year, mean_c in ((2023, 8), (2024, 10), (2025, 7)):
            daily |= days(date(year, 1, 1), date(year, 12, 31), mean_c)
        found = seasons(Climate(NORMALS_C, daily=daily | days(date(2026, 1, 1), ON, 9)), LEAF, ON, 54)
        least, most = found.span
        assert (found.ahead_of, round(least[105], 6), round(most[105], 6)) == (2, 106, 424)


@pytest.fixture
def five_seasons(cast) -> Club:
    rows = [
        WeatherDay(club=cast.club, on=on, mean_c=Decimal(mean_c), source="station")
        for year, mean_c in ((2021, 7), (2022, 8), (2023, 9), (2024, 10), (2025, 11))
        for on in days(date(year, 1, 1), date(year, 12, 31), 0)
    ]
    WeatherDay.objects.bulk_create(rows)
    WeatherDay.objects.bulk_create(
        WeatherDay(club=cast.club, on=on, mean_c=9, source="station")
        for on in days(date(2026, 1, 1), date(2026, 4, 15), 0)
    )
    return cast.club


@pytest.mark.django_db
class TestThePage:
    def test_it_says_how_the_season_stands(self, five_seasons, today):
        """To 15 April: today has no mean yet."""
        said = season(five_seasons, today)
        assert (said.as_of, round(said.so_far), said.estimated_days) == (date(2026, 4, 15), 315, 0)
        assert "By Wed 15 April this season had 315 °C·days," in said.in_words
        assert said.in_words.endswith("It is ahead of 2 of 5 earlier seasons.")

    def test_the_table_has_every_month_and_the_day_itself(self, five_seasons, today):
        rows = season(five_seasons, today).months
        assert [(row.on, round(row.so_far), round(row.least), round(row.most)) for row in rows] == [
            (date(2026, 1, 31), 93, 31, 155),
            (date(2026, 2, 28), 177, 59, 295),
            (date(2026, 3, 31), 270, 90, 450),
            (date(2026, 4, 15), 315, 105, 525),
        ]

    def test_the_picture_is_the_same_for_the_same_facts(self, five_seasons, today):
        pictures = [season_svg(season(five_seasons, today), narrow) for narrow in (False, True, False)]
        assert (pictures[0] == pictures[2], pictures[0] == pictures[1]) == (True, False)

    def test_picture_words_and_table_stand_on_the_weather_page(self, five_seasons, as_):
        page = as_("committee").get(reverse("weather", args=[five_seasons.slug])).content.decode()
        assert "the shaded band holds 5 earlier ones" in page
        assert reverse("season_picture", args=[five_seasons.slug]) in page
        assert "Least of earlier" in page

    def test_without_normals_there_is_no_picture(self, cast, as_):
        cast.club.normals.all().delete()
        client = as_("head")
        assert (
            "This season beside" not in client.get(reverse("weather", args=[cast.club.slug])).content.decode()
        )
        assert client.get(reverse("season_picture", args=[cast.club.slug])).status_code == 404

    def test_a_us_club_reads_it_in_fahrenheit(self, five_seasons, as_):
        Club.objects.update(units="us")
        page = as_("head").get(reverse("weather", args=[five_seasons.slug])).content.decode()
        assert "this season had 567 °F·days" in page
