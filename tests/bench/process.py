"""How soon a site is up, and how much memory one web process holds: ``python -m tests.bench.process``.

Up means that a migrated site has drawn its first page. Memory is what the system says of one gunicorn process
(resident, shared pages included) after 500 and after 1,000 visits to every address of a club in turn: pages,
pictures, files, PDFs.
"""

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass
from itertools import cycle, islice
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.error import HTTPError, URLError
from urllib.request import Request, urlopen

from tests.real_site import PROCESSES, ROOT, Site, read
from tests.services import free_port

DAYS, STARTS, HALF = 60, 3, 500
GUNICORN = ("-m", "gunicorn", "greens.config.wsgi", "--workers", "1", "--threads", "4", "--no-control-socket")
WAYS = {
    "manage.py serve": lambda port: ("manage.py", "serve", "--port", str(port)),
    "gunicorn": lambda port: (*GUNICORN, "--log-level", "error", "--bind", f"127.0.0.1:{port}"),
}


@dataclass(frozen=True)
class Start:
    """Seconds by the clock until the first page was drawn, and of the processor in the process that drew it,
    which a busy machine does not lengthen."""

    seconds: float
    processor_s: float


@dataclass(frozen=True)
class Memory:
    """Resident megabytes of one process, after its first page and after so many visits."""

    first_mb: float
    half_mb: float
    whole_mb: float
    visits: int
    errors: int

    @property
    def growth(self) -> float:
        return round(self.whole_mb / self.half_mb, 3)


@contextmanager
def serving(site: Site, way: str) -> Iterator[tuple[int, float]]:
    """The port, and the seconds until the first page was drawn."""
    port, began = free_port(), time.monotonic()
    server = subprocess.Popen([sys.executable, *WAYS[way](port)], cwd=ROOT, env=site.environment)
    try:
        until_drawn(port, began + 60)
        yield port, time.monotonic() - began
    finally:
        server.terminate()
        server.wait()


def until_drawn(port: int, give_up_at: float) -> None:
    """Until the page to sign in comes. Raises TimeoutError."""
    while time.monotonic() < give_up_at:
        with suppress(URLError, ConnectionError), urlopen(f"http://127.0.0.1:{port}/sign-in/", timeout=30):
            return
        time.sleep(0.02)
    raise TimeoutError("The site does not answer.")


def starts(site: Site, times: int = STARTS) -> dict[str, Start]:
    """How soon the site is up, by how it is started; the quickest of several."""
    return {way: min((start(site, way) for _ in range(times)), key=lambda one: one.seconds) for way in WAYS}


def start(site: Site, way: str) -> Start:
    with serving(site, way) as (_, seconds):
        drawing = set(site.processes()) - set(site.workers())
        return Start(round(seconds, 2), max(map(processor_s, drawing)))


def processor_s(pid: int) -> float:
    """Seconds of the processor in user and system mode (proc(5), the 14th and 15th field of stat)."""
    fields = read(PROCESSES / str(pid) / "stat").rpartition(b")")[2].split()
    return sum(map(int, fields[11:13])) / os.sysconf("SC_CLK_TCK") if fields else 0.0


def memory(site: Site, half: int = HALF) -> Memory:
    club = json.loads(site.do("-m", "tests.bench.furnish", "1", "1", str(DAYS)))[0]
    paths, errors = cycle(club["addresses"]), 0
    with serving(site, "gunicorn") as (port, _):
        first = resident_mb(site)
        held = []
        for _ in range(2):
            errors += sum(visited(port, path, club["cookies"][0]) >= 500 for path in islice(paths, half))
            held.append(resident_mb(site))
    return Memory(first, *held, 2 * half, errors)


def visited(port: int, path: str, cookie: str) -> int:
    try:
        request = Request(f"http://127.0.0.1:{port}{path}", headers={"Cookie": f"sessionid={cookie}"})
        with urlopen(request, timeout=60) as answer:
            answer.read()
            return answer.status
    except HTTPError as refused:
        refused.close()
        return refused.code


def resident_mb(site: Site) -> float:
    """Of the process that serves: the largest of those that run on this site's folder."""
    return max(resident_kb(pid) for pid in site.processes()) / 1000


def resident_kb(pid: int) -> int:
    lines = read(PROCESSES / str(pid) / "status").decode().splitlines()
    return next((int(line.split()[1]) for line in lines if line.startswith("VmRSS")), 0)


def table(up: dict[str, Start], held: Memory) -> str:
    lines = [
        f"{way:<18} up in {one.seconds:.2f} s, {one.processor_s:.2f} s of the processor"
        for way, one in up.items()
    ]
    lines.append(
        f"one web process    {held.first_mb:.0f} MB after its first page, {held.half_mb:.0f} MB after "
        f"{held.visits // 2} visits, {held.whole_mb:.0f} MB after {held.visits}; {held.errors} errors"
    )
    return "\n".join(lines)


def main() -> int:
    with TemporaryDirectory() as folder:
        site = Site(Path(folder))
        site.do("manage.py", "migrate", "--verbosity", "0")
        up, held = starts(site), memory(site)
    figures = {"up": {way: asdict(one) for way, one in up.items()}, "memory": asdict(held)}
    print(f"{table(up, held)}\n{json.dumps(figures)}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
