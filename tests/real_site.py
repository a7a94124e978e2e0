"""A site in a folder of its own, run as its people run it: real processes on a real database."""

import os
import signal
import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import psycopg

from growin.management.worker import COMMAND
from tests.services import free_port, wait_until_heard

ROOT = Path(__file__).resolve().parents[1]
PATIENCE_S = 60
PROCESSES = Path("/proc")
DATABASE = "greens.sqlite3"
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


@dataclass(frozen=True)
class Site:
    """A site in a folder of its own, run as its people run it."""

    folder: Path
    redis_url: str = ""
    email_url: str = "dummymail://"
    database_url: str = ""
    today: str = "2026-04-16"
    more: dict[str, str] = field(default_factory=dict)

    @property
    def environment(self) -> dict[str, str]:
        in_the_folder = f"sqlite:///{self.folder / DATABASE}"
        others = {key: value for key, value in os.environ.items() if not key.startswith("GREENS_")}
        return others | {
            "GREENS_DATA_DIR": str(self.folder),
            "GREENS_REDIS_URL": self.redis_url,
            "GREENS_EMAIL_URL": self.email_url,
            "GREENS_TODAY": self.today,
            "DATABASE_URL": self.database_url or in_the_folder,
            "DJANGO_SETTINGS_MODULE": "greens.config.settings",
            **self.more,
        }

    def run(self, *command: str, **more) -> subprocess.CompletedProcess:
        return subprocess.run(
            [sys.executable, *command], cwd=ROOT, env=self.environment, text=True, capture_output=True, **more
        )

    def do(self, *command: str) -> str:
        """A command that must succeed; what it says."""
        done = self.run(*command, timeout=PATIENCE_S)
        assert done.returncode == 0, done.stderr
        return done.stdout

    def queue(self) -> None:
        """Upload five days and have them kept."""
        self.do("-c", QUEUE)

    @contextmanager
    def database(self) -> Iterator:
        """A connection past the site; what is changed over it is kept at the end."""
        if self.database_url:
            with psycopg.connect(self.database_url) as connection:
                yield connection
        else:
            file = sqlite3.connect(self.folder / DATABASE, timeout=20)
            with closing(file) as connection, connection:
                yield connection

    def ask(self, question: str):
        with self.database() as database:
            return database.execute(question).fetchone()[0]

    def change(self, statement: str) -> None:
        with self.database() as database:
            database.execute(statement)

    def days_kept(self) -> int:
        return self.ask("SELECT count(*) FROM greens_weatherday")

    @contextmanager
    def worker(self, name: str = "one") -> Iterator[subprocess.Popen]:
        """A worker without the clock, as ``serve`` begins it; ended by force with the block."""
        command = [*(part for part in COMMAND if part != "--beat"), "-n", f"{name}@here"]
        worker = subprocess.Popen(command, cwd=ROOT, env=self.environment)
        try:
            yield worker
        finally:
            worker.kill()
            worker.wait()

    @contextmanager
    def served(self, port: int = 0) -> Iterator[subprocess.Popen]:
        port = port or free_port()
        command = [sys.executable, "manage.py", "serve", "--port", str(port)]
        how = {"cwd": ROOT, "env": self.environment, "stderr": subprocess.PIPE, "text": True}
        server = subprocess.Popen(command, preexec_fn=as_at_a_terminal, **how)
        try:
            wait_until_heard(port)
            yield server
        finally:
            server.kill()
            server.wait()
            server.stderr.close()
            until(lambda: self.processes() == [])

    @contextmanager
    def gunicorn(self, processes: int, threads: int = 4, app: str = "greens.config.wsgi") -> Iterator[int]:
        """The port of several processes that serve, as on a site with more than one club."""
        port = free_port()
        command = [sys.executable, "-m", "gunicorn", "--config", "python:greens.config.gunicorn", app]
        command += ["--bind", f"127.0.0.1:{port}", "--log-level", "error"]
        command += ["--workers", str(processes), "--threads", str(threads)]
        server = subprocess.Popen(command, cwd=ROOT, env=self.environment)
        try:
            wait_until_heard(port)
            yield port
        finally:
            server.terminate()
            server.wait()

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


def as_at_a_terminal() -> None:
    """Ctrl-C is heard, even where the tests were started in the background and do not hear it themselves."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


def until(is_so: Callable[[], bool], seconds: float = PATIENCE_S) -> bool:
    give_up_at = time.monotonic() + seconds
    while not is_so():
        if time.monotonic() > give_up_at:
            return False
        time.sleep(0.1)
    return True
