"""What whoever watches the site reads from it: in the open text format, for one who shows the token.

The format is read by the parsers of its reference library, for the text exposition format 0.0.4 and for
OpenMetrics 1.0; nothing here reads it by itself.
"""

import os
import time
from datetime import timedelta
from urllib.error import HTTPError
from urllib.request import Request, urlopen

import pytest
from django.core.cache import cache
from django.test import Client, RequestFactory
from django.utils import timezone
from prometheus_client import CollectorRegistry, generate_latest
from prometheus_client.openmetrics.parser import text_string_to_metric_families as read_open_metrics
from prometheus_client.parser import text_string_to_metric_families as read_text

from greens import metrics
from greens.actions import job as jobs
from greens.choices import Sending
from greens.models import Job, Mail
from growin.gauges import Waiting
from growin.queries import forecast
from tests.real_site import Site

TOKEN = "wind-over-the-ninth"
OPEN_METRICS = "application/openmetrics-text; version=1.0.0"


@pytest.fixture
def with_a_token(settings, tmp_path):
    settings.METRICS_TOKEN, settings.METRICS_DIR = TOKEN, tmp_path


def asked(**heads) -> tuple[int, str]:
    answer = Client().get("/metrics", headers=heads)
    return answer.status_code, answer.headers["Content-Type"].split(";")[0]


def test_a_site_without_a_token_shows_nothing():
    assert asked(authorization="Bearer ") == (404, "text/plain")


@pytest.mark.parametrize("shown", ["", "Bearer", "Bearer wind", f"Basic {TOKEN}", "Bearer wïnd"])
def test_who_does_not_show_the_token_reads_nothing(with_a_token, shown):
    assert asked(authorization=shown) == (401, "text/plain")


@pytest.fixture
def gauges(db):
    cache.clear()

    def read() -> dict[str, float]:
        registry = CollectorRegistry()
        registry.register(Waiting())
        families = read_text(generate_latest(registry).decode())
        return {one.name.removeprefix("greens_"): one.samples[0].value for one in families}

    yield read
    cache.clear()


def test_a_site_at_rest(gauges):
    assert gauges() == {
        "broker_up": 1,
        "database_up": 1,
        "jobs_waiting": 0,
        "job_oldest_wait_seconds": 0,
        "mails_waiting": 0,
        "mail_oldest_wait_seconds": 0,
        "forecasts_stale": 0,
        "worker_up": 0,
    }


def test_what_waits_is_counted_and_its_age_told(cast, gauges):
    ago = timezone.now() - timedelta(minutes=3)
    for number in range(2):
        jobs.queue_job(club=cast.club, kind="count greens", args={"number": number})
    Job.objects.update(heard_at=ago)
    Mail.objects.create(club=cast.club, person=cast.head.person, key="one", next_try_at=ago)
    Mail.objects.create(
        club=cast.club, person=cast.head.person, key="two", next_try_at=ago, state=Sending.SENT
    )
    read = gauges()
    assert (read["jobs_waiting"], read["mails_waiting"]) == (2, 1)
    assert [read[f"{one}_oldest_wait_seconds"] // 10 for one in ("job", "mail")] == [18, 18]
    assert read["forecasts_stale"] == forecast.wanting().count() == 2


def test_a_worker_that_swept_is_up(gauges):
    jobs.sweep()
    read = gauges()
    assert (read["worker_up"], abs(read["last_sweep_timestamp_seconds"] - time.time()) < 60) == (1, True)


def test_who_invents_methods_and_addresses_makes_no_rows():
    request = RequestFactory().generic("BREW", "/coffee/")
    assert (metrics.method_of(request), metrics.name_of(request)) == ("other", "none")


def test_counts_of_processes_that_are_gone_are_forgotten_after_a_day(tmp_path):
    old, young = time.time() - metrics.A_DAY_S - 60, time.time()
    ours, gone = os.getpid(), 2**22 + 1
    for pid, at in ((ours, old), (gone, old), (gone + 1, young)):
        file = tmp_path / f"counter_{pid}.db"
        file.touch()
        os.utime(file, (at, at))
    metrics.forget_the_dead(tmp_path)
    left = {f"counter_{ours}.db", f"counter_{gone + 1}.db"}
    assert {file.name for file in tmp_path.iterdir()} == left


def fetched(port: int, path: str, **heads) -> str:
    with urlopen(Request(f"http://127.0.0.1:{port}{path}", headers=heads), timeout=60) as answer:
        return answer.read().decode()


def visited(port: int, path: str) -> int:
    try:
        return len(fetched(port, path))
    except HTTPError as refused:
        refused.close()
        return refused.code


def samples(families) -> dict[tuple, float]:
    return {
        (sample.name, *sorted(sample.labels.items())): sample.value
        for family in families
        for sample in family.samples
    }


def requests_of(view: str, status: int) -> tuple:
    labels = {"method": "GET", "view": view, "status": str(status)}
    return ("greens_requests_total", *sorted(labels.items()))


def test_two_processes_tell_one_story(tmp_path):
    """Whichever of them is asked, it counts what both answered; the database is empty, and that is told."""
    site = Site(tmp_path, more={"GREENS_METRICS_TOKEN": TOKEN})
    with site.gunicorn(processes=2) as port:
        for _ in range(20):
            visited(port, "/sign-in/")
            visited(port, "/nowhere/")
        token = {"Authorization": f"Bearer {TOKEN}"}
        as_text = [samples(read_text(fetched(port, "/metrics", **token))) for _ in range(4)]
        as_open = samples(read_open_metrics(fetched(port, "/metrics", Accept=OPEN_METRICS, **token)))
    files = [file.name for file in (tmp_path / "metrics").rglob("counter_*.db")]
    wanted = {requests_of("sign_in", 200): 20, requests_of("none", 404): 20}
    for found in (*as_text, as_open):
        assert {key: found[key] for key in wanted} == wanted
        assert found["greens_request_seconds_count", ("view", "sign_in")] == 20
        assert (found[("greens_database_up",)], found[("greens_broker_up",)]) == (0, 1)
    assert len(files) == 2, "only one process answered"
