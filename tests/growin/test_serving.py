"""One command that serves: the worker works, dies and is replaced, and nothing is left over.

Everything here is real: processes, a database in a file, messages in a folder or in Redis.
"""

import os
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.services import free_port, redis, wait_until_heard

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 60
PROCESSES = Path("/proc")
QUEUE = """
import django; django.setup()
from datetime import date
from greens.actions.weather_upload import queue_import, take_in
from greens.models import Membership
from tests.cast import whole_cast
from tests.weather_files import csv_file, season
head = Membership.objects.filter(role="head").first() or whole_cast().head
first = date(2026, 4, 1 + 5 * head.club.weather_uploads.count())
upload = take_in(club=head.club, by=head, file=csv_file(*season(first, 5)))
queue_import(upload=upload, by=head, source="station")
"""

pytestmark = pytest.mark.skipif(not PROCESSES.is_dir(), reason="looks for processes as Linux keeps them")


@dataclass(frozen=True)
class Site:
    """A site in a folder of its own, run as its people run it."""

    folder: Path
    redis_url: str = ""

    @property
    def environment(self) -> dict[str, str]:
        others = {key: value for key, value in os.environ.items() if not key.startswith("GREENS_")}
        return others | {
            "GREENS_DATA_DIR": str(self.folder),
            "GREENS_REDIS_URL": self.redis_url,
            "GREENS_TODAY": "2026-04-16",
            "DATABASE_URL": f"sqlite:///{self.folder / 'greens.sqlite3'}",
            "DJANGO_SETTINGS_MODULE": "greens.config.settings",
        }

    def run(self, *command: str, **more) -> subprocess.CompletedProcess:
        return subprocess.run(
            [sys.executable, *command], cwd=ROOT, env=self.environment, text=True, capture_output=True, **more
        )

    def queue(self) -> None:
        """Upload five days and have them kept."""
        done = self.run("-c", QUEUE, timeout=PATIENCE_S)
        assert done.returncode == 0, done.stderr

    def ask(self, question: str):
        with closing(sqlite3.connect(self.folder / "greens.sqlite3", timeout=20)) as database:
            return database.execute(question).fetchone()[0]

    def days_kept(self) -> int:
        return self.ask("SELECT count(*) FROM greens_weatherday")

    @contextmanager
    def served(self) -> Iterator[subprocess.Popen]:
        port = free_port()
        command = [sys.executable, "manage.py", "serve", "--port", str(port)]
        server = subprocess.Popen(command, cwd=ROOT, env=self.environment, stderr=subprocess.PIPE, text=True)
        try:
            wait_until_heard(port)
            yield server
        finally:
            server.kill()
            server.wait()
            server.stderr.close()
            until(lambda: self.processes() == [])

    def processes(self) -> list[int]:
        """Every process that runs on this folder."""
        ours = f"GREENS_DATA_DIR={self.folder}\0".encode()
        found = (path for path in PROCESSES.glob("[0-9]*/environ"))
        return [int(path.parent.name) for path in found if ours in read(path)]

    def workers(self) -> list[int]:
        """Processes of the worker, its own before those it began."""
        return sorted(pid for pid in self.processes() if b"celery" in read(PROCESSES / str(pid) / "cmdline"))


def read(path: Path) -> bytes:
    """What the system says of a process; nothing once it is gone."""
    try:
        return path.read_bytes()
    except OSError:
        return b""


def until(is_so: Callable[[], bool], seconds: float = PATIENCE_S) -> bool:
    give_up_at = time.monotonic() + seconds
    while not is_so():
        if time.monotonic() > give_up_at:
            return False
        time.sleep(0.1)
    return True


@pytest.fixture(scope="module")
def empty_site(tmp_path_factory) -> Path:
    """A folder with an empty database, made once."""
    folder = tmp_path_factory.mktemp("site")
    done = Site(folder).run("manage.py", "migrate", "--verbosity", "0")
    assert done.returncode == 0, done.stderr
    return folder


@pytest.fixture
def folder(empty_site, tmp_path) -> Path:
    return Path(shutil.copytree(empty_site, tmp_path / "site"))


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
