"""Lines that the site writes about itself: one a request, errors under the same id, no secret in any."""

import io
import json
import logging
import os
import re
import subprocess
import sys

import pytest
from django.conf import settings as site
from django.test import Client

from greens.actions import job as jobs
from greens.config.lines import AsJson, AsText, OurFault
from greens.config.quiet import hidden
from greens.log_line import carrying, told
from tests.entries import at
from tests.house.addresses import addresses

SECRETS = {"secret", "token"}
SPEAK = """
import django; django.setup()
from django.test import Client, override_settings
with override_settings(ROOT_URLCONF="tests.greens.breaking"):
    for path in ("/calendar/s3cret/breaks/", "/invitation/s3cret/", "/nowhere%0Aelse/"):
        Client(raise_request_exception=False).get(path, headers={"X-Request-ID": "from-the-proxy-1"})
"""


class Written:
    """What a site writes as JSON while the block lasts."""

    def __init__(self, formatter=None):
        self.to = io.StringIO()
        self.handler = logging.StreamHandler(self.to)
        self.handler.setFormatter(formatter or AsJson())
        self.handler.addFilter(OurFault())

    def __enter__(self) -> "Written":
        logging.getLogger().addHandler(self.handler)
        logging.getLogger("greens").setLevel(logging.INFO)
        return self

    def __exit__(self, *_) -> None:
        logging.getLogger().removeHandler(self.handler)
        logging.getLogger("greens").setLevel(logging.WARNING)

    @property
    def lines(self) -> list[dict]:
        return [json.loads(line) for line in self.to.getvalue().splitlines()]


@pytest.fixture
def breaking(settings):
    settings.ROOT_URLCONF = "tests.greens.breaking"


def test_a_request_of_a_member_is_one_line(cast, as_):
    client, path = as_("staff"), at(cast, "diary")
    with Written() as log:
        client.get(f"{path}?q=who-asked-what", headers={"X-Request-ID": "from-the-proxy-1"})
    (line,) = log.lines
    ms, _ = line.pop("ms"), line.pop("at")
    assert ms > 0
    assert line == {
        "level": "info",
        "from": "greens.middleware",
        "said": f"GET {path}: 200 in {ms} ms",
        "request": "from-the-proxy-1",
        "method": "GET",
        "path": path,
        "status": 200,
        "member": cast.staff.pk,
    }


@pytest.mark.parametrize(
    "odd", ["", "short", "a b c d e f g h", "x" * 65, "line\x0bbreaks", "../../etc/passwd", "<b>bold</b>"]
)
def test_an_id_that_is_not_sane_is_replaced(odd, db):
    answer = Client().get("/sign-in/", headers={"X-Request-ID": odd})
    assert re.fullmatch("[0-9a-f]{12}", answer.headers["X-Request-ID"])


def test_a_sane_id_of_the_proxy_is_kept_and_answered(db):
    answer = Client().get("/sign-in/", headers={"X-Request-ID": "5d3c-11.eb_A"})
    assert answer.headers["X-Request-ID"] == "5d3c-11.eb_A"


def test_an_error_is_written_under_the_id_that_the_page_shows(breaking):
    with Written() as log:
        answer = Client(raise_request_exception=False).get("/breaks/")
    error, line = log.lines
    assert (error["request"], line["request"]) == (answer.headers["X-Request-ID"],) * 2
    assert (error["level"], "ZeroDivisionError: a sum of ours" in error["trace"]) == ("error", True)
    assert answer.headers["X-Request-ID"] in answer.content.decode()


def test_what_a_visitor_did_wrong_is_one_line_too(breaking):
    with Written() as log:
        Client().get("/shut/")
    assert [(line["path"], line["status"], line["level"]) for line in log.lines] == [("/shut/", 403, "info")]


def test_every_address_with_a_secret_is_hidden():
    """Read from the resolver, so that a new one cannot be forgotten."""
    secret = [one for one in addresses() if one.words & SECRETS]
    told_of = {one.name: hidden(one.filled(dict.fromkeys(one.words, "s3cret"))) for one in secret}
    assert {name: path for name, path in told_of.items() if "s3cret" in path} == {}
    assert len(told_of) >= 4


def test_a_secret_is_left_out_of_traces_too():
    with Written() as log:
        try:
            raise ValueError("no feed at /calendar/s3cret/greens.ics")
        except ValueError:
            logging.getLogger("greens.test").exception("Broke")
    assert log.lines[0]["trace"].endswith("no feed at /calendar/…/greens.ics")


def test_on_a_laptop_a_line_is_read():
    with Written(AsText("%(message)s")) as log, carrying(request="5d3c11eb", job=7):
        logging.getLogger("greens.test").warning("Mail %s waits", 3, extra=told(ms=4))
    assert log.to.getvalue() == "Mail 3 waits [request 5d3c11eb, job 7]\n"


def test_long_work_writes_under_its_job(cast):
    job = jobs.queue_job(club=cast.club, kind="count greens", args={})
    with Written() as log:
        jobs.do(job.pk, lambda job: {}["nothing"])
    assert [(line["job"], line["level"], line["said"]) for line in log.lines] == [
        (job.pk, "error", f"Job {job.pk} (count greens) broke"),
        (job.pk, "info", f"Job {job.pk} (count greens): failed"),
    ]


def spoken(kind: str, folder) -> str:
    """What a process writes to standard error over three requests."""
    environment = {key: value for key, value in os.environ.items() if not key.startswith("GREENS_")} | {
        "DATABASE_URL": f"sqlite:///{folder}/none.sqlite3",
        "GREENS_DATA_DIR": str(folder),
        "GREENS_LOG": kind,
        "DJANGO_SETTINGS_MODULE": "greens.config.settings",
    }
    command = [sys.executable, "-c", SPEAK]
    return subprocess.run(command, cwd=site.BASE_DIR, env=environment, capture_output=True, text=True).stderr


def test_a_site_that_is_watched_writes_json_and_nothing_else(tmp_path):
    lines = [json.loads(line) for line in spoken("json", tmp_path).splitlines()]
    assert {line["request"] for line in lines} == {"from-the-proxy-1"}
    assert [(line["path"], line["status"]) for line in lines if "path" in line] == [
        ("/calendar/…/breaks/", 500),
        ("/invitation/…/", 503),
        ("/nowhere%0Aelse/", 404),
    ]
    assert "s3cret" not in json.dumps(lines)


def test_a_quiet_site_writes_only_what_went_wrong(tmp_path):
    written = spoken("quiet", tmp_path)
    assert ("Internal Server Error: /calendar/…/breaks/ [request from-the-proxy-1]" in written) is True
    assert ("nowhere" in written, "s3cret" in written) == (False, False)
