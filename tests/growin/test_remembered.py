"""What was worked out of a record is kept, and never outlives a change of the record."""

from decimal import Decimal

import pytest
from django.db import connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext

from greens.actions import advice, area, build, day_state, diary, readings, setting, weather
from greens.choices import AreaMethod, DayStateKind, LayerKind
from greens.models import Club, Membership
from growin.actions import programme
from growin.queries.remembered import remembered
from tests.cast import whole_cast
from tests.entries import at, logged

pytestmark = pytest.mark.django_db(transaction=True)
WHO_THE_VISITOR_IS_AND_WAS_TOLD = 4


@pytest.fixture
def cast(today):
    return whole_cast()


@pytest.fixture
def visits(cast):
    """``visits("today")`` is how many queries that page asks of the club's record."""
    client = Client()
    client.force_login(cast.staff.person)

    def counted(name: str, *args) -> int:
        with CaptureQueriesContext(connection) as seen:
            assert client.get(at(cast, name, *args)).status_code == 200
        return len(seen) - WHO_THE_VISITOR_IS_AND_WAS_TOLD

    return counted


def test_a_page_seen_again_asks_nothing_more_of_the_record(cast, visits):
    assert (visits("today") > 10, visits("today")) == (True, 0)


def test_a_change_of_one_club_leaves_what_is_known_of_another(cast, visits):
    visits("today")
    entry = {"club": cast.outsider.club, "by": cast.outsider, "done_by": cast.outsider, "on": cast.today}
    diary.record_work(**entry, greens=[cast.other_green], kind="cut", details={"height_mm": 8})
    assert visits("today") == 0


def test_a_cut_stands_on_the_green_s_page_as_soon_as_it_is_kept(cast):
    client = Client()
    client.force_login(cast.staff.person)
    page = at(cast, "green", cast.green.pk)
    assert "Nothing logged yet." in client.get(page).content.decode()
    entry = logged(cast)
    assert "at 8 mm" in client.get(page).content.decode()
    diary.take_back(entry=entry, by=cast.staff)
    assert "Nothing logged yet." in client.get(page).content.decode()


DEEDS = {
    "work": lambda cast: logged(cast),
    "readings": lambda cast: readings.record_readings(
        green=cast.green, by=cast.staff, taken_by=cast.staff, measure="rooting_depth", on=cast.today,
        values=[60, 60, 60, 60, 60],
    ),
    "weather": lambda cast: weather.record_day(
        club=cast.club, by=cast.staff, on=cast.today, min_c=4, max_c=12
    ),
    "a state of the day": lambda cast: day_state.record_state(
        green=cast.green, by=cast.staff, on=cast.today, state=DayStateKind.RESTED
    ),
    "advice": lambda cast: advice.give_advice(
        green=cast.green, by=cast.adviser, on=cast.today, words="Hold the height."
    ),
    "an area": lambda cast: area.measure_area(
        green=cast.green, by=cast.head, method=AreaMethod.TYPED, measured_on=cast.today,
        area_m2=Decimal("451"),
    ),
    "a constant": lambda cast: setting.override(
        club=cast.club, by=cast.head, key="criterion.rooting_turf.depth_mm", value=60, why="Soil",
        in_force_from=cast.today,
    ),
    "a programme": lambda cast: programme.issue_programme(
        establishment=cast.establishment, by=cast.head, on=cast.today
    ),
    "a layer": lambda cast: build.set_layer(
        establishment=cast.establishment, by=cast.head, kind=LayerKind.ROOTZONE, depths_mm=[300, 305]
    ),
}  # fmt: skip


@pytest.mark.parametrize("deed", DEEDS)
def test_every_deed_gives_the_club_a_new_mark(deed, cast):
    before = Club.objects.get(pk=cast.club.pk).trail_mark
    DEEDS[deed](cast)
    assert Club.objects.get(pk=cast.club.pk).trail_mark != before


def test_inside_a_transaction_nothing_is_remembered(cast):
    """What was seen there may yet be undone."""
    count = Membership.objects.filter(club=cast.club).count
    with transaction.atomic():
        Membership.objects.create(club=cast.club, name="Old Wat", role="staff")
        within = remembered(cast.club, ("people",), count)
        transaction.set_rollback(True)
    assert remembered(cast.club, ("people",), count) == within - 1
