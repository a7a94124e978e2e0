"""Weather from a file: read, compared with the record, kept as one piece, undone as one piece."""

from datetime import date, timedelta

import pytest

from greens.actions import job as jobs
from greens.actions import weather_upload as uploads
from greens.actions.weather import record_day
from greens.choices import JobState
from greens.models import Club, TrailLine, WeatherDay, WeatherUpload
from greens.queries import weather_upload as queries
from greens.validators.upload import NotKept
from tests.weather_files import HEADERS, csv_file, season, workbook

pytestmark = pytest.mark.django_db
FIRST = date(2026, 4, 1)


@pytest.fixture
def take_in(cast):
    return lambda file: uploads.take_in(club=cast.club, by=cast.staff, file=file)


@pytest.fixture
def keep(cast):
    """Have the days of an upload kept, as the worker does."""

    def kept(upload: WeatherUpload, **agreed) -> WeatherUpload:
        job = uploads.queue_import(upload=upload, by=cast.staff, source="station", **agreed)
        jobs.do(job.pk, uploads.import_days)
        upload.refresh_from_db()
        return upload

    return kept


def figures(on: date = FIRST) -> tuple:
    row = WeatherDay.objects.get(on=on)
    values = (row.min_c, row.max_c, row.mean_c, row.rain_mm, row.soil_100_c)
    return (*(None if one is None else float(one) for one in values), row.source)


GOOD = {
    "comma": csv_file(HEADERS, "2026-04-01,4,12,0.2"),
    "semicolon and decimal commas": csv_file("Datum Date;Min °C;Max °C;Rain mm", "01.04.2026;4,0;12,0;0,2"),
    "tabs": csv_file("Date\tMin °C\tMax °C\tRain mm", "01/04/2026\t4\t12\t0.2"),
    "lines above the headers": csv_file("Station by the shed", "", HEADERS, "2026-04-01,4,12,0.2"),
    "units in a line below": csv_file("Date,Min,Max,Rain", ",°C,°C,mm", "2026-04-01,4,12,0.2"),
    "written in Windows": csv_file(HEADERS, "2026-04-01,4,12,0.2", encoding="cp1252"),
    "UTF-16": csv_file(HEADERS, "2026-04-01,4,12,0.2", encoding="utf-16"),
    "with a byte order mark": csv_file(HEADERS, "2026-04-01,4,12,0.2", encoding="utf-8-sig"),
    "XLSX": workbook(("Date", "Min °C", "Max °C", "Rain mm"), (date(2026, 4, 1), 4, 12.0, 0.2)),
    "XLSX with texts": workbook(("Date", "Min °C", "Max °C", "Rain mm"), ("1/4/2026", "4,0", "12", "0.2")),
}


@pytest.mark.parametrize("name", GOOD)
def test_a_day_comes_in_however_the_file_is_written(take_in, keep, name):
    GOOD[name].seek(0)
    upload = keep(take_in(GOOD[name]))
    assert figures() == (4, 12, 8, 0.2, None, "station")
    assert upload.result == {
        "first": "2026-04-01", "last": "2026-04-01", "days_new": 1, "days_changed": 0, "rows_left_out": 0,
    }  # fmt: skip


BAD = {
    "an empty file": (csv_file("", name="none.csv"), "none.csv is empty"),
    "blank lines": (csv_file(",,", ",,", name="none.csv"), "none.csv is empty"),
    "headers alone": (csv_file(HEADERS), "has headers and no day below them"),
    "a picture": (csv_file("\x89PNG\0\0\0", name="green.csv"), "is neither CSV nor XLSX"),
    "a broken workbook": (csv_file("PK\x03\x04nonsense", name="w.xlsx"), "not an XLSX workbook"),
    "200,000 rows": (csv_file(*["2026-04-01,4,12,0"] * 200_001), "has 200,000 rows; at most 150,000"),
}


@pytest.mark.parametrize(("file", "sentence"), BAD.values(), ids=BAD)
def test_a_file_that_is_none_is_refused_in_a_sentence(take_in, file, sentence):
    file.seek(0)
    with pytest.raises(NotKept, match=sentence):
        take_in(file)
    assert (WeatherUpload.objects.count(), WeatherDay.objects.count()) == (0, 0)


def test_a_macro_or_a_swollen_workbook_is_not_opened(take_in, monkeypatch):
    monkeypatch.setattr("greens.validators.table_file.MOST_UNPACKED_BYTES", 1_000)
    with pytest.raises(NotKept, match="too much to be read"):
        take_in(workbook(("Date", "Min"), (date(2026, 4, 1), 4)))


def kinds(upload: WeatherUpload) -> dict[str, int]:
    return {kind: count for kind, count in queries.checked(upload).counts.items() if count}


class TestDaysThatStandAlready:
    """1 April by hand, 2 April estimated, 3 April from an earlier file, 4 April by hand and the same."""

    @pytest.fixture
    def upload(self, cast, take_in, keep):
        day = {"club": cast.club, "by": cast.head}
        record_day(**day, on=FIRST, min_c=2, max_c=12, soil_100_c=6.5)
        record_day(**day, on=date(2026, 4, 2), mean_c=7, is_estimated=True)
        keep(take_in(csv_file(HEADERS, "2026-04-03,1,9,0")))
        record_day(**day, on=date(2026, 4, 4), min_c=4, max_c=12, rain_mm=0.2)
        return take_in(csv_file(*season(FIRST, 5)))

    def test_each_is_counted_for_what_it_is(self, upload):
        assert kinds(upload) == {
            "new": 1, "same": 1, "settled": 1, "different": 1, "different_by_hand": 1,
        }  # fmt: skip

    def test_nothing_that_was_measured_is_replaced_without_a_word(self, upload, keep):
        keep(upload)
        assert figures() == (2, 12, 7, 0.2, 6.5, "by hand, the rest from station")
        assert figures(date(2026, 4, 2)) == (4, 12, 8, 0.2, None, "station")
        assert figures(date(2026, 4, 3)) == (1, 9, 5, 0, None, "station")
        assert upload.result["days_changed"] == 2

    def test_what_is_agreed_is_replaced_and_the_rest_of_the_day_stays(self, upload, keep):
        keep(upload, takes_different=True, by_hand_days=[FIRST])
        assert figures() == (4, 12, 8, 0.2, 6.5, "station")
        assert figures(date(2026, 4, 3)) == (4, 12, 8, 0.2, None, "station")

    def test_an_estimate_never_takes_the_place_of_a_measured_day(self, upload, keep):
        keep(upload, is_estimated=True, takes_different=True, by_hand_days=[FIRST])
        assert figures() == (2, 12, 7, None, 6.5, "by hand")
        assert list(WeatherDay.objects.filter(is_estimated=True).values_list("on", flat=True)) == [
            date(2026, 4, 5),
            date(2026, 4, 2),
        ]

    def test_what_was_written_by_hand_after_the_look_stays(self, upload, keep, cast):
        record_day(club=cast.club, by=cast.head, on=date(2026, 4, 5), min_c=-1, max_c=6)
        keep(upload, takes_different=True)
        assert figures(date(2026, 4, 5))[:2] == (-1, 6)

    def test_taking_it_back_sets_every_day_back(self, upload, keep, cast):
        before = list(
            WeatherDay.objects.values_list("on", "min_c", "mean_c", "rain_mm", "source", "is_estimated")
        )
        keep(upload, takes_different=True, by_hand_days=[FIRST])
        assert uploads.undo(upload=upload, by=cast.head) == 4
        after = WeatherDay.objects.values_list("on", "min_c", "mean_c", "rain_mm", "source", "is_estimated")
        assert list(after) == before

    def test_taking_it_back_leaves_what_was_written_since(self, upload, keep, cast):
        keep(upload)
        record_day(club=cast.club, by=cast.head, on=date(2026, 4, 5), min_c=-1, max_c=6)
        uploads.undo(upload=upload, by=cast.head)
        assert figures(date(2026, 4, 5))[:2] == (-1, 6)


def test_two_files_taken_back_in_either_order_leave_nothing(cast, take_in, keep):
    first = keep(take_in(csv_file(HEADERS, "2026-04-01,1,9,0")))
    second = keep(take_in(csv_file(HEADERS, "2026-04-01,2,9,0")), takes_different=True)
    for upload in (first, second):
        uploads.undo(upload=upload, by=cast.head)
    assert WeatherDay.objects.count() == 0
    assert uploads.undo(upload=second, by=cast.head) == 0


def test_an_import_is_one_line_in_the_record_of_changes(cast, take_in, keep):
    upload = keep(take_in(csv_file(*season(FIRST, 5))))
    line = TrailLine.objects.get(noun="weatherupload")
    assert (line.deed, line.by, line.noun_pk) == ("Weather kept from station.csv", cast.staff, upload.pk)
    assert line.changes["days_new"] == [None, 5]


def test_a_job_done_twice_keeps_the_days_once(take_in, keep):
    upload = keep(take_in(csv_file(*season(FIRST, 5))))
    assert uploads.import_days(upload.job) == upload.result
    assert WeatherDay.objects.count() == 5


def test_the_file_is_gone_once_its_days_are_kept(take_in, keep, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=False) as after:
        upload = keep(take_in(csv_file(*season(FIRST, 5))))
    assert queries.place_of(upload).exists()
    after[-1]()
    assert not queries.place_of(upload).exists()


def test_a_file_that_was_cleared_away_says_so(take_in, keep):
    upload = take_in(csv_file(*season(FIRST, 5)))
    queries.place_of(upload).unlink()
    job = keep(upload).job
    assert (job.state, job.error) == (JobState.FAILED, uploads.GONE)


def test_a_file_that_nobody_kept_is_cleared_away_after_a_week(take_in):
    old = take_in(csv_file(*season(FIRST, 5)))
    WeatherUpload.objects.update(made_at=old.made_at - timedelta(days=8))
    fresh = take_in(csv_file(*season(FIRST, 5)))
    assert list(WeatherUpload.objects.all()) == [fresh]


def test_columns_said_by_hand_are_remembered_for_the_next_file(cast, take_in, keep):
    rows = ("When;A;B", "01.04.2026;4;12")
    first = take_in(csv_file(*rows))
    columns = uploads.as_kept(queries.columns_of(first))
    assert columns == {}
    told = {"on": uploads.Column(0), "min_c": uploads.Column(1, "c"), "max_c": uploads.Column(2, "c")}
    uploads.set_columns(upload=first, columns=told)
    keep(first)
    assert queries.columns_of(take_in(csv_file(*rows))) == told
    theirs = uploads.take_in(club=cast.outsider.club, by=cast.outsider, file=csv_file(*rows))
    assert theirs.columns == {}


def test_a_us_club_means_fahrenheit_inches_and_the_month_first(cast, take_in, keep):
    Club.objects.update(units="us")
    cast.club.refresh_from_db()
    keep(take_in(csv_file("Date,Low,High,Rain", "04/01/2026,39.2,53.6,0.5", "04/02/2026,41,55,0")))
    assert figures() == (4, 12, 8, 12.7, None, "station")


def test_thirty_years_are_kept_whole(take_in, keep):
    """10,957 days; progress is said on the way."""
    upload = keep(take_in(csv_file(*season(date(1996, 1, 1), 10_957))))
    assert (upload.result["days_new"], WeatherDay.objects.count()) == (10_957, 10_957)
    assert (upload.job.done_count, upload.job.of_count) == (10_957, 10_957)
