"""What all tests share: the cast, a signed-in client, and a fixed day."""

from collections import Counter
from datetime import date
from pathlib import Path

import pytest
from django.contrib.auth.hashers import Argon2PasswordHasher
from django.test import Client, override_settings
from hypothesis import settings as examples

from tests import cast as casting
from tests.empty_database import made_once

#: The same examples in every run: a new one is found by who looks for it, not by who lands something else.
examples.register_profile("the same", derandomize=True)
examples.load_profile("the same")


#: How many of them are named after a run.
SLOWEST_FILES = 12


def pytest_addoption(parser):
    parser.addoption(
        "--only-database", action="store_true", help="leave out what says nothing new on a second database"
    )


def pytest_collection_modifyitems(config, items):
    if config.getoption("--only-database"):
        items[:] = [item for item in items if says_something_new(item)]


def says_something_new(item) -> bool:
    """Whether a test tells more on a second database: it meets one, and not through pages alone.

    Pages ask what queries and actions ask; each is opened there once (tests/house/test_opens.py).
    """
    meets_one = "db" in item.fixturenames or item.get_closest_marker("django_db")
    return meets_one and ("as_" not in item.fixturenames or item.get_closest_marker("every_database"))


def pytest_terminal_summary(terminalreporter):
    """Where the time goes, by file: the few that take the most."""
    spent = Counter()
    for report in (one for some in terminalreporter.stats.values() for one in some):
        if hasattr(report, "duration"):
            spent[report.nodeid.split("::")[0]] += report.duration
    terminalreporter.write_sep("=", "slowest files")
    for file, seconds in spent.most_common(SLOWEST_FILES):
        terminalreporter.write_line(f"{seconds:7.1f} s  {file}")


@pytest.fixture(autouse=True, scope="session")
def files_in_a_temporary_folder(tmp_path_factory):
    """Photographs and documents of tests never lie among anybody's own."""
    kept = override_settings(MEDIA_ROOT=tmp_path_factory.mktemp("media"))
    kept.enable()
    yield
    kept.disable()


@pytest.fixture(autouse=True, scope="session")
def files_of_the_site_are_looked_up_when_asked_for():
    """Every client loads the middleware anew; none has to look through all the files first."""
    looked_up = override_settings(WHITENOISE_AUTOREFRESH=True)
    looked_up.enable()
    yield
    looked_up.disable()


@pytest.fixture(autouse=True, scope="session")
def hashes_that_cost_little():
    """The same hash with the least work; sites in processes of their own keep the dear one."""
    with pytest.MonkeyPatch.context() as patch:
        for cost, least in (("time_cost", 1), ("memory_cost", 8), ("parallelism", 1)):
            patch.setattr(Argon2PasswordHasher, cost, least)
        yield


@pytest.fixture(scope="session")
def empty_database(pytestconfig) -> Path:
    """The file of a migrated database for sites in processes of their own; kept from run to run."""
    return made_once(pytestconfig.cache.mkdir("empty_database"))


@pytest.fixture
def today(settings):
    """Thursday 16 April 2026 at every club."""
    settings.FIXED_TODAY = date(2026, 4, 16)
    return settings.FIXED_TODAY


@pytest.fixture
def cast(db, today):
    return casting.whole_cast()


@pytest.fixture
def as_(cast):
    """``as_("staff")`` is a client signed in as that member of the cast."""

    def signed_in(role: str) -> Client:
        client = Client()
        client.force_login(cast[role].person)
        return client

    return signed_in
