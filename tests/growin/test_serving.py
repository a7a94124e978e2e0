"""One command that serves: the worker works, dies and is replaced, and nothing is left over.

Everything here is real: processes, a database in a file, messages in a folder or in Redis.
"""

import os
import shutil
import signal
import socket
import time
from pathlib import Path

import pytest
from celery import current_app
from redis import Redis

from tests.empty_database import copy_of
from tests.real_site import DATABASE, PATIENCE_S, PROCESSES, Site, until
from tests.services import free_port, redis

pytestmark = pytest.mark.skipif(not PROCESSES.is_dir(), reason="looks for processes as Linux keeps them")


@pytest.fixture
def folder(empty_database, tmp_path) -> Path:
    """That of a site with an empty database."""
    copy_of(empty_database, tmp_path / DATABASE)
    return tmp_path


def test_the_worker_does_its_work_is_replaced_when_it_dies_and_ends_on_ctrl_c(folder):
    site = Site(folder)
    site.queue()
    with site.served() as server:
        assert until(lambda: site.days_kept() == 5)
        first = site.workers()[0]
        os.kill(first, signal.SIGKILL)
        site.queue()
        assert until(lambda: site.days_kept() == 10)
        assert first not in site.workers()
        server.send_signal(signal.SIGINT)
        assert (server.wait(PATIENCE_S), server.stderr.read()) == (0, "")
        assert site.processes() == []
    assert site.ask("SELECT count(*) FROM greens_job WHERE state = 'done' AND tries = 1") == 2


@pytest.mark.parametrize(
    ("sign", "status"), [(signal.SIGTERM, 0), (signal.SIGKILL, -9)], ids=["TERM", "kill -9"]
)
def test_however_it_ends_nothing_is_left_running(folder, sign, status):
    site = Site(folder)
    with site.served() as server:
        assert until(lambda: len(site.workers()) >= 2)
        server.send_signal(sign)
        assert server.wait(PATIENCE_S) == status
        assert until(lambda: site.processes() == [])


def test_a_taken_port_is_said_in_one_sentence(folder):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        refused = Site(folder).run("manage.py", "serve", "--port", str(port), timeout=PATIENCE_S)
    assert (refused.returncode, refused.stderr.strip()) == (
        1,
        f"CommandError: 127.0.0.1:{port} cannot be had (Address already in use); "
        "choose another port with --port.",
    )


@pytest.mark.skipif(shutil.which("redis-server") is None, reason="no Redis here")
def test_messages_go_through_redis_where_there_is_one(folder):
    with redis() as url:
        site = Site(folder, url)
        with site.served():
            site.queue()
            assert until(lambda: site.days_kept() == 5)
    assert not (folder / "worker" / "messages").exists() or not any(
        (folder / "worker" / "messages").iterdir()
    )


def test_a_redis_that_is_gone_costs_a_page_seconds_and_no_row(folder):
    site = Site(folder, f"redis://127.0.0.1:{free_port()}/0")
    began = time.monotonic()
    site.queue()
    assert time.monotonic() - began < 15
    assert site.ask("SELECT state FROM greens_job") == "queued"


@pytest.mark.skipif(shutil.which("redis-server") is None, reason="no Redis here")
def test_a_redis_that_takes_the_call_and_says_nothing_costs_a_page_seconds_and_no_row(folder):
    with redis() as url:
        with Redis.from_url(url) as one:
            frozen = one.info()["process_id"]
        os.kill(frozen, signal.SIGSTOP)
        site, began = Site(folder, url), time.monotonic()
        try:
            site.queue()
        finally:
            os.kill(frozen, signal.SIGCONT)
        assert time.monotonic() - began < 15
    assert site.ask("SELECT state FROM greens_job") == "queued"


def test_a_worker_waits_for_redis_for_as_long_as_it_is_away():
    """Celery gives up after a hundred tries, some fifty minutes, unless it is told otherwise."""
    assert current_app.conf.broker_connection_max_retries is None
