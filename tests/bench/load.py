"""Fifty users on gunicorn, PostgreSQL and Redis beside the bare page under the same load:
``python -m tests.bench.load`` (some four minutes; ``--logs-one-in 0``: everybody only reads).

Ten clubs with a season's record, five people in each. Everybody asks for a page of the day, thinks for
one to three seconds, and now and then logs a cut, after which their club's pages are worked out anew. In
turns of ten seconds they ask for the bare pages of the same weight at the same pace instead, so that a busy
machine disturbs both alike. The machine that asks is the one that serves.
"""

import json
import random
import sys
import threading
import time
from argparse import ArgumentParser
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import asdict, dataclass, field
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from statistics import quantiles
from tempfile import TemporaryDirectory
from urllib.parse import urlencode
from uuid import uuid4

import psycopg

from tests.bench.process import processor_s
from tests.real_site import Site
from tests.services import postgresql, redis

CLUBS, DAYS, TURN_S, THINKS_S = 10, 60, 10, (1.0, 3.0)
#: One visit of so many logs work, so that each club's record changes about four times a minute.
LOGS_ONE_IN = 40
#: How often each page is visited before: every process reads its templates for itself.
WARM_ROUNDS = 2
PROCESSES, THREADS = 2, 4
#: Connections are kept, as docker/compose.yaml has it.
AS_IN_PRODUCTION = "?conn_max_age=60"
CSRF = "a" * 32


@dataclass
class Heard:
    """Milliseconds of every answer by what was asked for, and whatever went wrong."""

    page: list[float] = field(default_factory=list)
    bare: list[float] = field(default_factory=list)
    write: list[float] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)


@dataclass
class User(threading.Thread):
    """Somebody of a club who asks over a new connection each time, until it is over."""

    port: int
    club: dict
    cookie: str
    seed: int
    heard: Heard
    turn: dict[str, bool]
    logs_one_in: int = LOGS_ONE_IN

    def __post_init__(self):
        super().__init__(daemon=True)
        self.random = random.Random(self.seed)

    __hash__ = threading.Thread.__hash__

    def run(self) -> None:
        time.sleep(self.random.uniform(0, THINKS_S[1]))
        while not self.turn["over"]:
            try:
                self.visit()
            except (OSError, HTTPException) as failed:
                self.heard.errors.append(f"{type(failed).__name__}: {failed}")
            time.sleep(self.random.uniform(*THINKS_S))

    def visit(self) -> None:
        path, bare_path = self.random.choice(self.club["day"])
        if self.turn["bare"]:
            self.heard.bare.append(self.asked("GET", bare_path))
        elif self.logs_one_in and self.random.randrange(self.logs_one_in) == 0:
            cut = self.club["cut"] | {"client_id": uuid4(), "csrfmiddlewaretoken": CSRF}
            self.heard.write.append(self.asked("POST", self.club["log"], urlencode(cut)))
        else:
            self.heard.page.append(self.asked("GET", path))

    def asked(self, method: str, path: str, body: str | None = None) -> float:
        heads = {"Cookie": f"sessionid={self.cookie}; csrftoken={CSRF}", "Connection": "close"}
        if body:
            heads["Content-Type"] = "application/x-www-form-urlencoded"
        began = time.perf_counter()
        with closing(HTTPConnection("127.0.0.1", self.port, timeout=60)) as line:
            line.request(method, path, body, heads)
            answer = line.getresponse()
            answer.read()
        took = (time.perf_counter() - began) * 1000
        if answer.status != (302 if body else 200):
            self.heard.errors.append(f"{method} {path}: {answer.status}")
        return took


@dataclass(frozen=True)
class Result:
    """Milliseconds until half, and until 95 of a hundred answers had come; how many there were."""

    p50_ms: float
    p95_ms: float
    count: int


@dataclass(frozen=True)
class Load:
    users: int
    pages: Result
    bare: Result
    writes: Result
    page_processor_ms: float
    bare_processor_ms: float
    errors: list[str]

    @property
    def ratio(self) -> float:
        """p95 of the pages beside that of the bare ones."""
        return round(self.pages.p95_ms / self.bare.p95_ms, 2)


def result(ms: list[float]) -> Result:
    if len(ms) < 2:
        return Result(0, 0, len(ms))
    cuts = quantiles(ms, n=100)
    return Result(round(cuts[49], 1), round(cuts[94], 1), len(ms))


@contextmanager
def site(clubs: int, users: int) -> Iterator[tuple[int, list[dict], Site]]:
    """The port of a served site on PostgreSQL, its clubs, and itself; gone with the block."""
    with postgresql() as url, redis() as redis_url, TemporaryDirectory() as folder:
        one = Site(Path(folder), redis_url, database_url=url + AS_IN_PRODUCTION)
        one.do("manage.py", "migrate", "--verbosity", "0")
        made = json.loads(one.run("-m", "tests.bench.furnish", str(clubs), str(users), str(DAYS)).stdout)
        settle(url)
        with one.gunicorn(PROCESSES, THREADS, "tests.bench.with_bare") as port:
            yield port, made, one


def settle(database_url: str) -> None:
    """Rows that have just been poured in would be gone through in the middle of the measurement."""
    with psycopg.connect(database_url, autocommit=True) as database:
        database.execute("VACUUM ANALYZE")


def measured(users: int = 50, seconds: int = 60, logs_one_in: int = LOGS_ONE_IN) -> Load:
    """So many users for so many seconds on pages, and as long on bare ones, in turns; ``logs_one_in`` 0: they
    only read."""
    each = max(users // CLUBS, 1)
    heard, turn = Heard(), {"over": False, "bare": False}
    with site(users // each, each) as (port, clubs, served):
        people = [
            User(port, club, cookie, seed, heard, turn, logs_one_in)
            for number, club in enumerate(clubs)
            for seed, cookie in enumerate(club["cookies"], start=100 * number)
        ]
        warm(port, clubs)
        for one in people:
            one.start()
        spent = take_turns(turn, seconds, served)
        for one in people:
            one.join()
    spent_ms = spent[False] / (len(heard.page) + len(heard.write)), spent[True] / len(heard.bare)
    results = map(result, (heard.page, heard.bare, heard.write))
    return Load(len(people), *results, *(round(one * 1000, 1) for one in spent_ms), heard.errors)


def warm(port: int, clubs: list[dict]) -> None:
    """Every page of every club's day, some rounds long."""
    for club in clubs:
        visitor = User(port, club, club["cookies"][0], 0, Heard(), {})
        for path, bare_path in {tuple(one) for one in club["day"]}:
            for _ in range(WARM_ROUNDS):
                visitor.asked("GET", path)
            visitor.asked("GET", bare_path)


def take_turns(turn: dict[str, bool], seconds: int, served: Site) -> dict[bool, float]:
    """Seconds of the processor that the web processes spent on pages (False) and on bare ones (True)."""
    spent = {False: 0.0, True: 0.0}
    for _ in range(max(seconds // TURN_S, 1)):
        for turn["bare"] in (False, True):
            before = sum(map(processor_s, served.processes()))
            time.sleep(min(TURN_S, seconds))
            spent[turn["bare"]] += sum(map(processor_s, served.processes())) - before
    turn["over"] = True
    return spent


def table(found: Load) -> str:
    lines = [f"{found.users} users{'':<10}{'p50, ms':>9}{'p95, ms':>9}{'answers':>9}"]
    for name, one in (("pages", found.pages), ("bare pages", found.bare), ("works logged", found.writes)):
        lines.append(f"{name:<18}{one.p50_ms:>9.1f}{one.p95_ms:>9.1f}{one.count:>9}")
    lines.append(
        f"the web's processor {found.page_processor_ms} ms an answer, {found.bare_processor_ms} ms a bare one"
    )
    lines.append(f"p95 of pages beside bare ones {found.ratio}, errors {len(found.errors)}")
    return "\n".join([*lines, *sorted(set(found.errors))[:10]])


def main() -> int:
    asked = ArgumentParser(description="50 users beside the bare page under the same load")
    asked.add_argument("--users", type=int, default=50)
    asked.add_argument("--seconds", type=int, default=60)
    asked.add_argument("--logs-one-in", type=int, default=LOGS_ONE_IN)
    found = measured(**vars(asked.parse_args()))
    print(f"{table(found)}\n{json.dumps(asdict(found) | {'ratio': found.ratio})}")
    return 1 if found.errors else 0


if __name__ == "__main__":
    sys.exit(main())
