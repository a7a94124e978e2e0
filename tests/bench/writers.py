"""Eight who log work at once on SQLite: ``python -m tests.bench.writers`` (``--seconds 30 --writers 8``).

Each is a process of its own with the site's own settings, and logs one cut after another through the same
action as the form. Every commit is counted where it was made and again in the database.
"""

import json
import subprocess
import sys
from argparse import ArgumentParser
from dataclasses import asdict, dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.real_site import ROOT, Site

CLUBS = """
import django; django.setup()
from tests.cast import club_with_head, laid_green
for number in range({clubs}):
    laid_green(club_with_head(f"Club {{number}}", f"Head of {{number}}").club)
"""
WRITER = """
import django; django.setup()
import json, sys, time
from django.conf import settings
from django.db import OperationalError
from greens.models import Membership
from growin.actions.diary import log_work
by = Membership.objects.order_by("pk")[{number} % {clubs}]
said = {{"club": by.club, "by": by, "done_by": by, "kind": "cut", "on": settings.FIXED_TODAY,
        "greens": list(by.club.greens.all()), "details": {{"height_mm": 8}}}}
commits, locked, longest = 0, 0, 0.0
print("ready", flush=True)
sys.stdin.readline()
over_at = time.monotonic() + {seconds}
while time.monotonic() < over_at:
    began = time.monotonic()
    try:
        log_work(**said)
        commits += 1
    except OperationalError:
        locked += 1
    longest = max(longest, time.monotonic() - began)
print(json.dumps([commits, locked, longest]))
"""


@dataclass(frozen=True)
class Written:
    """Works kept, by the writers and by the database; how often one found it locked; the longest wait."""

    writers: int
    seconds: int
    commits: int
    in_the_database: int
    lock_errors: int
    longest_s: float


def measured(site: Site, writers: int = 8, seconds: int = 30) -> Written:
    """So many processes write for so long into the migrated, empty database of a site, two in each club."""
    clubs = max(writers // 2, 1)
    site.do("-c", CLUBS.format(clubs=clubs))
    lines = [WRITER.format(number=number, clubs=clubs, seconds=seconds) for number in range(writers)]
    running = [begun(site, line) for line in lines]
    for one in running:
        assert one.stdout.readline() == "ready\n"
    said = [json.loads(one.communicate("go\n")[0]) for one in started(running)]
    commits, locked, longest = zip(*said, strict=True)
    kept = site.ask("SELECT count(*) FROM greens_entry")
    return Written(writers, seconds, sum(commits), kept, sum(locked), round(max(longest), 2))


def begun(site: Site, program: str) -> subprocess.Popen:
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True}
    return subprocess.Popen([sys.executable, "-c", program], cwd=ROOT, env=site.environment, **pipes)


def started(running: list[subprocess.Popen]) -> list[subprocess.Popen]:
    """All of them are told at once; waiting for each comes after."""
    for one in running:
        one.stdin.write("go\n")
        one.stdin.flush()
    return running


def table(found: Written) -> str:
    return (
        f"{found.writers} writers on SQLite for {found.seconds} s: {found.commits} works kept "
        f"({found.commits / found.seconds:.0f} a second), {found.lock_errors} found it locked, "
        f"longest {found.longest_s} s"
    )


def main() -> int:
    asked = ArgumentParser(description="several who log work at once on SQLite")
    asked.add_argument("--writers", type=int, default=8)
    asked.add_argument("--seconds", type=int, default=30)
    with TemporaryDirectory() as folder:
        site = Site(Path(folder))
        site.do("manage.py", "migrate", "--verbosity", "0")
        found = measured(site, **vars(asked.parse_args()))
    print(f"{table(found)}\n{json.dumps(asdict(found))}")
    return 1 if found.lock_errors else 0


if __name__ == "__main__":
    sys.exit(main())
