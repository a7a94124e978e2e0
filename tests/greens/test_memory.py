"""What was worked out is kept in Redis for all web processes; a site whose Redis is away goes on without."""

import pickle
from collections.abc import Iterator
from time import monotonic

import pytest
from redis import Redis

from greens import memory
from greens.config.memory import mark_of_the_program, shared_through
from greens.memory import Shared, opened, sealed
from tests.services import free_port, redis


@pytest.fixture(scope="module")
def a_redis() -> Iterator[str]:
    with redis() as url:
        yield url


def memory_at(url: str) -> Shared:
    """As another web process has it."""
    how = shared_through(url)
    return Shared(how.pop("LOCATION"), how)


def test_what_one_process_worked_out_another_finds(a_redis):
    one, other = memory_at(a_redis), memory_at(a_redis)
    one.set("depth", {"depth_mm": 300})
    assert other.get("depth") == {"depth_mm": 300}
    assert other.get_or_set("depth", lambda: pytest.fail("worked out again")) == {"depth_mm": 300}
    assert one.get_or_set("rate", lambda: None) is None
    assert other.get_many(["depth", "rate", "none"]) == {"depth": {"depth_mm": 300}, "rate": None}


def test_an_answer_is_forgotten_in_time(a_redis):
    one = memory_at(a_redis)
    one.set("short", 1, 600)
    assert 590 < Redis.from_url(a_redis).ttl(one.make_key("short")) <= 600


def test_whoever_gets_into_redis_has_no_code_run_and_exchanges_no_answers(a_redis):
    one, inside = memory_at(a_redis), Redis.from_url(a_redis)
    one.set("club-one", "of one")
    one.set("club-two", "of two")
    inside.set(one.make_key("code"), pickle.dumps(pytest.fail))
    inside.set(one.make_key("club-two"), inside.get(one.make_key("club-one")))
    assert [one.get(key, "nothing") for key in ("code", "club-one", "club-two")] == [
        "nothing",
        "of one",
        "nothing",
    ]


def test_a_seal_is_of_this_site_alone(settings):
    kept = sealed("depth", 300)
    assert opened("depth", kept, None) == 300
    settings.SECRET_KEY = "another"
    assert opened("depth", kept, None) is None


def test_while_redis_is_away_everything_is_worked_out_anew_and_nobody_waits():
    away = memory_at(f"redis://127.0.0.1:{free_port()}/0")
    began = monotonic()
    for _ in range(100):
        assert away.get_or_set("depth", lambda: 300) == 300
    away.set("depth", 300)
    assert away.get("depth") is None
    assert monotonic() - began < 2


def test_redis_is_found_again_once_it_is_back(monkeypatch):
    monkeypatch.setattr(memory, "LEFT_ALONE_S", 0)
    port = free_port()
    one = memory_at(f"redis://127.0.0.1:{port}/0")
    one.set("depth", 300)
    with redis(port):
        one.set("depth", 300)
        assert one.get("depth") == 300


def test_an_upgraded_program_never_reads_what_the_old_one_kept(tmp_path):
    (tmp_path / "growin").mkdir()
    (tmp_path / "growin" / "today.py").write_text("old")
    before = mark_of_the_program(tmp_path)
    assert before == mark_of_the_program(tmp_path)
    (tmp_path / "growin" / "today.py").write_text("new")
    assert mark_of_the_program(tmp_path) != before
