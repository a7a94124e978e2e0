"""What was worked out of a record is kept, and never outlives a change of the record."""

import re
from decimal import Decimal

import pytest
from django.core.cache import caches
from django.db import connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext

from greens.actions import advice, area, build, day_state, diary, notice, readings, setting, weather
from greens.actions.trail import DAILY
from greens.choices import AreaMethod, DayStateKind, LayerKind
from greens.config.memory import shared_through
from greens.models import Club, Label, Membership, Notice, TrailLine
from growin.actions import answer, programme
from growin.evidence import gathered
from growin.queries import amounts, decision, ladder, lag, line, run_out, season, story, water
from growin.queries import programme as programmes
from growin.queries import remembered as remembered_queries
from growin.queries.remembered import remembered
from tests import rows
from tests.cast import whole_cast
from tests.entries import at, label, logged
from tests.services import free_port, redis

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


def test_with_a_redis_all_web_processes_know_it(visits, settings):
    with redis() as url:
        settings.CACHES = {"default": shared_through(url)}
        assert (visits("today") > 10, visits("today")) == (True, 0)
        caches["default"] = caches.create_connection("default")  # as another process has it
        assert visits("today") == 0


def test_while_redis_is_away_pages_ask_the_record_each_time(visits, settings):
    settings.CACHES = {"default": shared_through(f"redis://127.0.0.1:{free_port()}/0")}
    assert [visits("today") > 10 for _ in range(2)] == [True, True]


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


OF_THE_FRAME = {
    "amounts.store_of": lambda cast: amounts.store_of(cast.club),
    "amounts.labels_offered": lambda cast: amounts.labels_offered(cast.club, "feed", ()),
    "decision.by_establishment": lambda cast: decision.by_establishment(cast.club, cast.today),
    "gathered.frame_of": lambda cast: gathered.frame_of(cast.club, [cast.establishment], cast.today),
    "ladder.planned": lambda cast: ladder.planned(cast.establishment),
    "lag.versions": lambda cast: lag.versions(cast.club, [cast.establishment], cast.today),
    "line.round_of": lambda cast: line.round_of(cast.club, cast.today),
    "programme.kinds": lambda cast: programmes.kinds(cast.establishment),
    "run_out.run_out": lambda cast: run_out.run_out(cast.club, [cast.establishment], cast.today),
    "season.season": lambda cast: season.season(cast.club, cast.today),
    "story.strip_days": lambda cast: story.strip_days(cast.establishment, cast.today, cast.today),
    "water.frame_of": lambda cast: water.frame_of(cast.club, [cast.establishment], cast.today),
}


def test_every_read_that_is_kept_with_the_frame_is_among_those_that_are_tried():
    kept = {name.split(".", 2)[-1] for name in remembered_queries.OF_THE_FRAME}
    assert set(OF_THE_FRAME) == kept


@pytest.fixture
def opened(cast):
    """A feed and a sand in the store, a programme, a decision, a day of weather."""
    label(cast, lines={"N_total": "8"})
    programme.issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    rows.closed(cast.head, cast.establishment)
    weather.record_day(club=cast.club, by=cast.staff, on=cast.today, min_c=4, max_c=12)
    return cast


def a_day_of_logging(cast) -> None:
    """All that is logged day by day, corrected, answered and taken back."""
    feed = Label.objects.get()
    cut = logged(cast)
    logged(cast, "water", details={"depth_mm": 4})
    fed = logged(cast, "feed", details={"form": "granular"}, products=[(feed, 11_250)])
    diary.correct_work(entry=cut, by=cast.head, details={"height_mm": 9})
    diary.take_back(entry=fed, by=cast.head)
    known = {"green": cast.green, "by": cast.staff}
    read = readings.record_readings(
        **known, taken_by=cast.staff, measure="rooting_depth", on=cast.today, values=[60, 60, 60, 60, 60]
    )
    readings.take_back(reading_set=read, by=cast.head)
    day_state.record_state(**known, on=cast.today, state=DayStateKind.RESTED)
    key = programmes.next_steps(cast.establishment, cast.today, 1)[0].step.key
    answer.not_done(establishment=cast.establishment, key=key, by=cast.head, on=cast.today, reason="Frost")
    told = rows.told(cast.head)
    Notice.objects.filter(pk=told.pk).update(asks_word=True)
    notice.see(member=cast.head, pk=told.pk)


def tables(seen: CaptureQueriesContext, words: str) -> set[str]:
    return {name for one in seen for name in re.findall(rf'(?:{words}) "(\w+)"', one["sql"])}


def test_what_is_logged_day_by_day_touches_nothing_that_is_kept_with_the_frame(opened):
    """Else a page would show what was before the entry."""
    with CaptureQueriesContext(connection) as seen:
        for read in OF_THE_FRAME.values():
            read(opened)
    looked_at = tables(seen, "FROM|JOIN")
    with CaptureQueriesContext(connection) as seen:
        a_day_of_logging(opened)
    written = tables(seen, "INTO|UPDATE|DELETE FROM")
    nouns = set(TrailLine.objects.filter(club=opened.club).values_list("noun", flat=True))
    assert {"greens_label", "growin_programmestep", "growin_decision", "greens_weatherday"} <= looked_at
    assert {"greens_entry", "greens_readingset", "growin_stepanswer", "greens_daystate"} <= written
    assert nouns >= DAILY
    assert looked_at & written == {"greens_club"}


@pytest.mark.parametrize("deed", DEEDS)
def test_only_what_is_logged_day_by_day_leaves_the_frame(deed, cast):
    before = Club.objects.get(pk=cast.club.pk).frame_mark
    DEEDS[deed](cast)
    stands = Club.objects.get(pk=cast.club.pk).frame_mark == before
    assert stands == (deed in ("work", "readings", "a state of the day"))
