"""The pages of weather from a file: what a person sees before anything is kept, and what is asked back."""

from datetime import date
from html import unescape

import pytest
from django.urls import reverse

from greens.actions import job as jobs
from greens.actions import weather_upload as uploads
from greens.actions.weather import record_day
from greens.choices import JobState
from greens.models import Job, WeatherDay, WeatherUpload
from tests.weather_files import HEADERS, csv_file, season

pytestmark = pytest.mark.django_db
FIRST = date(2026, 4, 1)


@pytest.fixture
def client(as_):
    return as_("staff")


@pytest.fixture
def send(client, cast):
    """Upload a file; what the browser shows in the end."""

    def sent(file) -> str:
        return seen(
            client.post(reverse("weather_upload", args=[cast.club.slug]), {"file": file}, follow=True)
        )

    return sent


@pytest.fixture
def agree(client, cast):
    def agreed(page: str = "weather_upload_check", **ticks) -> str:
        address = reverse(page, args=[cast.club.slug, WeatherUpload.objects.get().pk])
        return seen(client.post(address, {"source": "station"} | ticks, follow=True))

    return agreed


def seen(answer) -> str:
    assert answer.status_code == 200
    return unescape(answer.content.decode())


def work() -> None:
    """What the worker does with the newest job."""
    jobs.do(Job.objects.latest("pk").pk, uploads.import_days)


def test_a_good_file_is_looked_at_kept_and_taken_back(send, agree, client, cast):
    page = send(csv_file(*season(FIRST, 5)))
    assert "5 days, Wed 1 April 2026 to Sun 5 April 2026. Nothing is kept yet." in page
    assert "“Min °C”" in page
    assert WeatherDay.objects.count() == 0
    assert "waiting for its turn" in agree()
    work()
    assert "5 days new, 0 changed" in agree("weather_upload_kept")
    assert "5 days taken back" in agree("weather_upload_undo")
    assert WeatherDay.objects.count() == 0


def test_rows_that_cannot_be_are_named_and_left_out_only_when_it_is_said(send, agree):
    page = send(csv_file(*season(FIRST, 5), "2026-04-06,-60,9,0", "2026-04-07,4,60,0"))
    assert "<strong>Row 7:</strong> Lowest, °C: -60 is not possible; it should be from -50 to 45." in page
    assert "<strong>Row 8:</strong> Highest, °C: 60 is not possible; it should be from -50 to 57." in page
    assert "Tick this, or put the file right and upload it again." in agree()
    assert Job.objects.count() == 0
    agree(leaves_out="on")
    work()
    assert WeatherUpload.objects.get().result["rows_left_out"] == 2


def test_days_to_and_fro_are_asked_back(send, agree):
    page = send(csv_file(HEADERS, "2026-04-01,4,12,0", "2026-04-05,4,12,0", "2026-04-02,4,12,0"))
    assert "The days do not run in order: 1 time a row is earlier than the row above it." in page
    agree()
    assert Job.objects.count() == 0
    agree(sorts="on")
    assert Job.objects.count() == 1


def test_fahrenheit_in_a_celsius_column_is_asked_back_and_converted(send, agree):
    page = send(csv_file(HEADERS, *(f"2026-04-{day:02},39.2,53.6,0" for day in range(1, 11))))
    assert "read as Celsius lie 39 °C above the normals of their days." in page
    assert "Read as Fahrenheit they lie within 1 °C of them. Nothing is kept yet." in page
    assert "4 °C" in agree(unit="f")
    agree()
    work()
    assert [float(one) for one in WeatherDay.objects.values_list("mean_c", flat=True)] == [8.0] * 10


def test_what_is_sure_to_be_celsius_is_judged_row_by_row(send, agree):
    send(csv_file(HEADERS, *(f"2026-04-{day:02},39.2,53.6,0" for day in range(1, 11))))
    page = agree(unit="c")
    assert "Not one day of this file can be kept." in page
    assert page.count("<strong>Row") == 10


def test_a_day_by_hand_is_shown_beside_the_files_and_kept(send, agree, cast):
    record_day(club=cast.club, by=cast.head, on=FIRST, min_c=2, max_c=12)
    page = send(csv_file(*season(FIRST, 2)))
    assert "Lowest 2 °C" in page
    assert "Lowest 4 °C" in page
    assert "Replace the figures of 1 day written by hand" in page
    agree()
    work()
    assert float(WeatherDay.objects.get(on=FIRST).min_c) == 2


def test_a_day_by_hand_is_replaced_when_it_is_said(send, agree, cast):
    record_day(club=cast.club, by=cast.head, on=FIRST, min_c=2, max_c=12)
    send(csv_file(*season(FIRST, 2)))
    agree(takes_by_hand="on")
    work()
    assert float(WeatherDay.objects.get(on=FIRST).min_c) == 4


def test_what_stands_already_needs_no_keeping(send, agree, cast):
    record_day(club=cast.club, by=cast.head, on=FIRST, min_c=4, max_c=12, rain_mm=0.2)
    assert "there is nothing to keep" in send(csv_file(*season(FIRST, 1)))
    agree()
    assert Job.objects.count() == 0


def test_headers_nobody_understands_are_said_by_hand(send, agree):
    assert "Which column holds what?" in send(csv_file("When;A;B", "01.04.2026;4,5;12"))
    columns = {"on": "0", "min_c": "1", "unit_min_c": "c", "max_c": "2", "unit_max_c": "c"}
    assert "This column is read as “Day” already." in agree(
        "weather_upload_columns", **columns | {"min_c": "0"}
    )
    assert "Say for at least one figure which column holds it." in agree("weather_upload_columns", on="0")
    assert "4.5 °C" in agree("weather_upload_columns", **columns)


BAD = {
    "empty": (csv_file(""), "This file is empty"),
    "200,000 rows": (csv_file(*["2026-04-01,4,12,0"] * 200_001), "has 200,000 rows; at most 150,000"),
    "hours": (
        csv_file(HEADERS, *(f"2026-04-01 {hour}:00,4,{hour},0" for hour in range(1, 24)),
                 *(f"2026-04-02 {hour}:00,4,{hour},0" for hour in range(1, 24))),
        "Each day stands 23 times in this file (46 rows for 2 days)",
    ),
    "no day at all": (csv_file(HEADERS, "mild,4,12,0", "wet,4,12,0"), "No row of this file has a day"),
}  # fmt: skip


@pytest.mark.parametrize(("file", "sentence"), BAD.values(), ids=BAD)
def test_what_is_no_file_of_days_gets_one_sentence(send, file, sentence):
    file.seek(0)
    assert sentence in send(file)
    assert (WeatherDay.objects.count(), Job.objects.count()) == (0, 0)


def test_work_that_failed_says_why_and_may_be_tried_again(send, agree):
    send(csv_file(*season(FIRST, 5)))
    agree()
    Job.objects.update(state=JobState.FAILED, error=jobs.BROKEN)
    page = agree("weather_upload_kept")
    assert jobs.BROKEN in page
    assert "Try again" in page
    agree()
    work()
    assert WeatherDay.objects.count() == 5


def test_who_did_not_upload_it_and_manages_nothing_may_not_take_it_back(send, agree, as_, cast):
    send(csv_file(*season(FIRST, 5)))
    WeatherUpload.objects.update(logged_by=cast.head)
    address = reverse("weather_upload_undo", args=[cast.club.slug, WeatherUpload.objects.get().pk])
    assert [as_(role).get(address).status_code for role in ("staff", "head")] == [403, 200]


def test_the_page_asks_how_far_the_work_is(send, agree, client, cast):
    send(csv_file(*season(FIRST, 5)))
    agree()
    address = reverse("job_state", args=[cast.club.slug, Job.objects.get().pk])
    assert client.get(address).json() == {"state": "queued", "is_open": True, "done": 0, "of": 0}
    work()
    assert client.get(address).json() == {"state": "done", "is_open": False, "done": 5, "of": 5}
