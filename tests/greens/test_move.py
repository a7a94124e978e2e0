"""A club moves from SQLite to PostgreSQL: everything or nothing, and its pages read the same afterwards."""

import json
import re
import sqlite3
from contextlib import closing
from dataclasses import replace

import psycopg
import pytest
from django.db import connection
from django.test import Client
from django.urls import reverse

from greens.actions.move import NotMoved, named
from greens.models import Membership
from greens.queries import tables
from tests.cast import whole_cast
from tests.real_site import Site
from tests.rows import rows_of
from tests.services import postgresql, programs

OF_THE_CLUB = ("today", "diary", "people", "store")
OF_THE_GREEN = ("green", "record", "readiness", "readings")
BY_LOT_OR_CLOCK = re.compile(r'(?<=value=")[\w-]{32,64}(?=")|(?<=data-made-at=")[^"]+')
READ = """
import django; django.setup()
import json
from tests.greens.test_move import pages_of
print(json.dumps(pages_of("Isla Rowan")))
"""
BEGIN_A_GREEN = """
import django; django.setup()
from greens.models import Club, Green
Green.objects.create(club=Club.objects.first(), name="Eighth", position=8, area_dm2=40_000)
"""


@pytest.fixture
def site(transactional_db, today, tmp_path) -> Site:
    """A site on SQLite with a row of every noun in two clubs; from another database nobody moves."""
    if connection.vendor != "sqlite" or programs() is None:
        pytest.skip("moves from SQLite to PostgreSQL")
    cast = whole_cast()
    rows_of(cast.staff, cast.establishment)
    rows_of(cast.outsider, cast.other_establishment)
    with closing(sqlite3.connect(tmp_path / "greens.sqlite3")) as file:
        connection.connection.backup(file)
    return Site(tmp_path)


def pages_of(name: str) -> dict[str, str]:
    """What the head greenkeeper reads, but for what every page draws by lot or from the clock."""
    head, client = Membership.objects.get(name=name), Client()
    client.force_login(head.person)
    of_the_green = [head.club.slug, head.club.greens.first().pk]
    places = dict.fromkeys(OF_THE_CLUB, of_the_green[:1]) | dict.fromkeys(OF_THE_GREEN, of_the_green)
    answers = {page: client.get(reverse(page, args=place)) for page, place in places.items()}
    assert {answer.status_code for answer in answers.values()} == {200}
    return {page: BY_LOT_OR_CLOCK.sub("…", answer.content.decode()) for page, answer in answers.items()}


def refusal(site: Site, url: str) -> str:
    refused = site.run("manage.py", "move_to", url, timeout=60)
    assert refused.returncode == 1
    return refused.stderr.strip().removeprefix("CommandError: ")


@pytest.mark.migrations
def test_everything_moves_into_an_empty_database_and_the_pages_read_the_same(site):
    before = {model._meta.db_table: tables.summed(model, "default") for model in tables.kept()}
    with postgresql() as url, psycopg.connect(url, autocommit=True) as there:
        there.execute("CREATE TABLE members (name text)")
        assert refusal(site, url) == (
            "The new database is not empty: it holds the table members, which is none of ours."
        )
        there.execute("DROP TABLE members")
        lines = [line.split() for line in site.do("manage.py", "move_to", url).splitlines()[:-1]]
        assert lines == [[str(sum.rows), sum.digest[:12], table] for table, sum in before.items()]
        moved = replace(site, database_url=url)
        assert json.loads(moved.do("-c", READ)) == json.loads(site.do("-c", READ))
        moved.do("-c", BEGIN_A_GREEN)
        assert refusal(site, url) == "The new database is not empty: there are rows in django_session."


@pytest.mark.parametrize("url", ["sqlite:///other.sqlite3", "mail.example.org", "", "postgres://host:none/x"])
def test_only_postgresql_is_moved_to(url):
    with pytest.raises(NotMoved, match="should look like postgres://"):
        named(url)


@pytest.mark.parametrize(
    ("one", "other"),
    [({"b": 1.0, "a": [2, -0.0]}, {"a": [2.0, 0], "b": 1}), ([10**20], [1e20])],
)
def test_what_both_databases_keep_alike_has_one_sum(one, other):
    """PostgreSQL keeps JSON by its values: neither the order of keys nor the point of 1.0 (jsonb)."""
    assert tables.said(one) == tables.said(other)
