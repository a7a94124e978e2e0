"""A site is up within five seconds; one web process holds at most 250 MB and does not grow."""

import json
from dataclasses import asdict

import pytest

from tests.bench import process, writers
from tests.bench.gates import IN_FULL, gate
from tests.empty_database import copy_of
from tests.real_site import DATABASE, PROCESSES, Site

pytestmark = [
    pytest.mark.bench,
    pytest.mark.skipif(not PROCESSES.is_dir(), reason="looks for processes as Linux keeps them"),
]
UP_WITHIN_S, MOST_MB, GROWS_AT_MOST = 5.0, 250, 1.03
#: In a check the processor's own time, a few seconds of four writers, and one start.
WRITERS, SECONDS, STARTS = (8, 30, 3) if IN_FULL else (4, 3, 1)


@pytest.fixture
def site(empty_database, tmp_path) -> Site:
    """A site with an empty database."""
    copy_of(empty_database, tmp_path / DATABASE)
    return Site(tmp_path)


def test_a_site_is_up_within_five_seconds(site, capsys):
    up = process.starts(site, STARTS)
    with capsys.disabled():
        print(f"\n{json.dumps({way: asdict(one) for way, one in up.items()})}")
    took = {way: one.seconds if IN_FULL else one.processor_s for way, one in up.items()}
    assert {way: seconds for way, seconds in took.items() if seconds > gate(UP_WITHIN_S)} == {}


def test_those_who_log_work_at_once_never_find_sqlite_locked(site, capsys):
    found = writers.measured(site, WRITERS, SECONDS)
    with capsys.disabled():
        print(f"\n{writers.table(found)}\n{json.dumps(asdict(found))}")
    assert (found.lock_errors, found.in_the_database) == (0, found.commits)
    assert found.commits > 0


@pytest.mark.skipif(not IN_FULL, reason="some two minutes: python -m tests.bench")
def test_a_web_process_holds_little_and_does_not_grow(site, capsys):
    held = process.memory(site)
    with capsys.disabled():
        print(f"\n{process.table({}, held)}\n{json.dumps(asdict(held))}")
    assert (held.errors, held.whole_mb <= MOST_MB, held.growth <= GROWS_AT_MOST) == (0, True, True)
