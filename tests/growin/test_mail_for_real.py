"""Mail for real: workers, Redis, databases and a mail server are processes and sockets of their own.

Whatever dies or comes twice: everybody is told everything once. The one exception has its own test.
"""

import re
import shutil
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path

import pytest
from celery import Celery
from redis import Redis

from growin.agronomy.in_play import STOP_RULE
from tests.cast import PASSWORD
from tests.empty_database import copy_of
from tests.growin.waiting import MEMBERS, NOTICES
from tests.mail_server import Post, post
from tests.real_site import DATABASE, PROCESSES, Site, until
from tests.services import free_port, postgresql, programs, redis
from tests.visitor import Visitor

TELL = "import django; django.setup(); from tests.growin.waiting import tell_everybody; tell_everybody()"
DEAD_CLAIM = "UPDATE greens_mail SET claimed_at = '2026-01-01 00:00:00' WHERE state = 'sending'"
A_WORD = re.compile(r"Word \d of the committee\.$")
NOT_LEFT = "SELECT count(*) FROM greens_mail WHERE state <> 'sent'"

pytestmark = pytest.mark.skipif(not PROCESSES.is_dir(), reason="looks for processes as Linux keeps them")
has_redis = pytest.mark.skipif(shutil.which("redis-server") is None, reason="no Redis here")


@pytest.fixture(scope="module")
def told_once(empty_database, tmp_path_factory) -> Path:
    """A folder with a database in which thirty notices wait; made once, copied for every test."""
    folder = tmp_path_factory.mktemp("told")
    copy_of(empty_database, folder / DATABASE)
    Site(folder).do("-c", TELL)
    return folder


@pytest.fixture
def folder(told_once, tmp_path) -> Path:
    return Path(shutil.copytree(told_once, tmp_path / "site"))


@pytest.fixture(scope="module")
def a_redis() -> Iterator[str]:
    with redis() as url:
        yield url


@pytest.fixture
def redis_url(a_redis) -> str:
    with Redis.from_url(a_redis) as one:
        one.flushall()
    return a_redis


@pytest.fixture
def server() -> Iterator[Post]:
    with post() as one:
        yield one


def nudge(redis_url: str, times: int = 1) -> None:
    """The message that asks a worker to send what is due."""
    with Celery("nudging", broker=redis_url, set_as_current=False) as app:
        for _ in range(times):
            app.send_task("send mails")


def listening(redis_url: str) -> int:
    """How many workers wait for messages."""
    with Redis.from_url(redis_url) as one:
        return sum(client["cmd"] == "brpop" for client in one.client_list())


def is_done(redis_url: str, with_the_dead: int = 0) -> bool:
    """Whether no message waits and none is in hand, but for those that dead workers had."""
    with Redis.from_url(redis_url) as one:
        return (one.llen("celery"), one.hlen("unacked")) == (0, with_the_dead)


def words_told(server: Post) -> Counter[tuple[str, str]]:
    """How often each of the staff was told each word, as (address, line of the letter)."""
    letters = ((mail["To"], mail.get_body(("plain",)).get_content()) for mail in server.taken)
    return Counter(
        (to, line) for to, text in letters for line in set(text.splitlines()) if A_WORD.match(line)
    )


def everybody_was_told(server: Post) -> bool:
    return len(words_told(server)) == NOTICES


def nobody_was_told_twice(server: Post) -> bool:
    return set(words_told(server).values()) == set(server.copies.values()) == {1}


@contextmanager
def on(database: str, folder: Path) -> Iterator[str]:
    """The address of a database in which thirty notices wait."""
    if database == "sqlite":
        yield ""
        return
    if programs() is None:
        pytest.skip("no PostgreSQL here")
    with postgresql() as url:
        Site(folder, database_url=url).do("-c", TELL)
        yield url


@has_redis
@pytest.mark.parametrize("database", ["sqlite", "postgresql"])
def test_two_workers_and_every_message_five_times_mail_everything_once(folder, redis_url, server, database):
    server.thinks_s = 0.1
    with on(database, folder) as database_url:
        site = Site(folder, redis_url, server.url, database_url)
        with site.worker("one"), site.worker("two"):
            assert until(lambda: listening(redis_url) == 2)
            nudge(redis_url, times=5)
            assert until(lambda: everybody_was_told(server) and is_done(redis_url))
            nudge(redis_url, times=5)
            assert until(lambda: is_done(redis_url))
        assert site.ask(NOT_LEFT) == 0
    assert nobody_was_told_twice(server)
    assert server.greeted > 1, "only one sender was at work; nothing was tried"


def killed_in_mid_mail(site: Site, server: Post, when) -> None:
    """A worker sends, and is killed outright as soon as something is so; nobody sends after that."""
    with site.worker() as worker:
        nudge(site.redis_url)
        assert until(when)
        worker.kill()
    server.thinks_s = server.keeps_quiet_s = 0


def others_go_on(site: Site, server: Post) -> None:
    """Another worker sends what nobody has claimed, then what the dead one had, once that claim is old."""
    with site.worker("another"):
        nudge(site.redis_url)
        assert until(lambda: site.ask(NOT_LEFT) == 1)
        nudge(site.redis_url)
        assert until(lambda: is_done(site.redis_url, with_the_dead=1))
        assert site.ask(NOT_LEFT) == 1, "a claim that is not old was taken up"
        site.change(DEAD_CLAIM)
        nudge(site.redis_url)
        assert until(lambda: site.ask(NOT_LEFT) == 0)


@has_redis
def test_a_worker_killed_before_the_server_took_its_mail_leaves_it_to_another_once(folder, redis_url, server):
    site, server.thinks_s = Site(folder, redis_url, server.url), 60
    killed_in_mid_mail(site, server, server.thinking.is_set)
    assert server.taken == []
    others_go_on(site, server)
    assert everybody_was_told(server)
    assert nobody_was_told_twice(server)


@has_redis
def test_only_a_worker_killed_after_the_server_took_a_mail_sends_it_twice_under_one_message_id(
    folder, redis_url, server
):
    """The one copy that is allowed: nobody can know that the mail had left."""
    site, server.keeps_quiet_s = Site(folder, redis_url, server.url), 60
    killed_in_mid_mail(site, server, lambda: server.taken)
    twice = str(server.taken[0]["Message-ID"])
    others_go_on(site, server)
    assert server.copies == Counter(dict.fromkeys(server.copies, 1)) + Counter([twice])
    assert everybody_was_told(server)


def decide(visitor: Visitor, site: Site, from_day: str) -> None:
    """The committee opens a green that is not ready; everybody must be told."""
    rebuild = site.ask("SELECT min(id) FROM greens_establishment")
    said = {"pattern": "alternate", "from_day": from_day, "meeting_on": "2026-04-15", "present": "all"}
    said |= {"stop_rule": STOP_RULE, "reason": f"The match of {from_day}."}
    visitor.fill_in(f"/clubs/marram-links/rebuilds/{rebuild}/decisions/new/", **said)
    kept = f"SELECT count(*) FROM greens_notice WHERE text LIKE '%The match of {from_day}%'"
    assert site.ask(kept) == MEMBERS


def heard_of(server: Post, from_day: str) -> int:
    """How many were told of a decision."""
    bodies = (mail.get_body(("plain",)).get_content() for mail in server.taken)
    return sum(f"The match of {from_day}." in body for body in bodies)


@has_redis
def test_while_redis_is_away_pages_answer_and_keep_rows_and_all_leaves_once_when_it_is_back(folder, server):
    """Redis is away when the site begins, comes, goes and comes again, empty each time.

    It is away for as long as the test needs; nothing in the code counts how long that is.
    """
    port, at = free_port(), free_port()
    site = Site(folder, f"redis://127.0.0.1:{port}/0", server.url)
    with site.served(at):
        visitor = Visitor(at)
        visitor.fill_in("/sign-in/", email="maeve.thorn@example.org", password=PASSWORD)
        began = time.monotonic()
        decide(visitor, site, "2026-04-18")
        assert time.monotonic() - began < 15
        assert server.taken == []
        with redis(port):  # the worker's clock nudges
            assert until(lambda: heard_of(server, "2026-04-18") == MEMBERS)
        decide(visitor, site, "2026-04-20")
        with redis(port) as url:
            nudge(url)
            assert until(lambda: heard_of(server, "2026-04-20") == MEMBERS)
            decide(visitor, site, "2026-04-22")  # the site nudges by itself
            assert until(lambda: heard_of(server, "2026-04-22") == MEMBERS)
    assert everybody_was_told(server)
    assert nobody_was_told_twice(server)


def test_a_sweep_from_cron_does_what_waits_and_leaves_nothing_for_a_worker(folder, server):
    site = Site(folder, email_url=server.url)
    assert any((folder / "worker" / "messages").iterdir())
    first, second = (site.do("manage.py", "sweep") for _ in range(2))
    assert re.match(r"[1-9] jobs done, 2 clubs looked at, 0 warnings gone on, 10 mails sent.", first), first
    assert second == "0 jobs done, 0 clubs looked at, 0 warnings gone on, 0 mails sent.\n"
    assert (site.days_kept(), site.ask(NOT_LEFT)) == (5, 0)
    assert everybody_was_told(server)
    assert nobody_was_told_twice(server)
    assert list((folder / "worker" / "messages").iterdir()) == []


def test_two_sweeps_at_once_send_nothing_twice(folder, server):
    site, server.thinks_s = Site(folder, email_url=server.url), 0.1
    with ThreadPoolExecutor(2) as pool:
        for done in [pool.submit(site.do, "manage.py", "sweep") for _ in range(2)]:
            done.result()
    assert (site.days_kept(), site.ask(NOT_LEFT)) == (5, 0)
    assert everybody_was_told(server)
    assert nobody_was_told_twice(server)


def test_what_breaks_in_a_sweep_is_said_and_keeps_no_mail_from_leaving(folder, server):
    """A club whose time zone the machine does not know any more."""
    site = Site(folder, email_url=server.url, today="")
    site.change("UPDATE greens_club SET time_zone = 'Nowhere/Else' WHERE slug = 'fernhollow-park'")
    done = site.run("manage.py", "sweep")
    assert done.returncode == 1
    assert "CommandError: queue_due broke: ZoneInfoNotFoundError" in done.stderr
    assert everybody_was_told(server)
    assert nobody_was_told_twice(server)
