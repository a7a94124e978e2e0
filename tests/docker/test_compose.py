"""The site of docker/compose.yaml: sound files, and the processes it starts, on PostgreSQL and Redis."""

import re
import shutil
import subprocess
import sys
from contextlib import ExitStack

import psycopg
import pytest

from tests.docker.composed import DOCKER, PROGRAMS, Composed, ask, compose
from tests.real_site import ROOT, until
from tests.services import free_port, is_heard, postgresql, programs, redis

COMPOSE_FILES = ("compose.yaml", "compose.bucket.yaml")
OURS = {"web", "worker", "beat", "backup"}
QUEUE = """
import django; django.setup()
from tests.cast import whole_cast
from tests.real_site import QUEUE
exec(QUEUE)
"""


@pytest.mark.parametrize("name", COMPOSE_FILES)
def test_the_compose_files_are_as_the_specification_wants_them(name):
    """The specification's own schema, as check-jsonschema carries it."""
    check = [PROGRAMS / "check-jsonschema", "--builtin-schema", "vendor.compose-spec", DOCKER / name]
    checked = subprocess.run(check, capture_output=True, text=True)
    assert checked.returncode == 0, checked.stdout


def test_the_dockerfile_is_as_its_linter_wants_it():
    checked = subprocess.run([PROGRAMS / "hadolint", DOCKER / "Dockerfile"], capture_output=True, text=True)
    assert (checked.returncode, checked.stdout) == (0, "")


def images() -> list[str]:
    base = re.findall(r"^ARG BASE=(\S+)", (DOCKER / "Dockerfile").read_text(), re.MULTILINE)
    others = [one["image"] for name, one in compose()["services"].items() if "build" not in one]
    return [*base, *others]


def test_every_image_of_others_is_pinned_to_a_release():
    assert [one for one in images() if not re.search(r":\d+\.\d+", one)] == []


def test_our_containers_own_nothing_and_may_nothing():
    services = compose()["services"]
    assert {name for name, one in services.items() if "build" in one} == OURS
    held = [
        (one["read_only"], one["cap_drop"], one["security_opt"])
        for name, one in services.items()
        if name in OURS
    ]
    assert held == [(True, ["ALL"], ["no-new-privileges:true"])] * len(OURS)
    assert re.findall(r"^USER (\S+)", (DOCKER / "Dockerfile").read_text(), re.MULTILINE) == ["10001:10001"]


def test_only_the_proxy_is_reached_from_outside():
    services = compose()["services"]
    assert [name for name, one in services.items() if "ports" in one] == ["proxy"]
    assert [services[name]["networks"] for name in ("redis", "database")] == [["inside"], ["inside"]]
    assert compose()["networks"]["inside"] == {"internal": True}


def test_no_secret_stands_in_the_files():
    """Keys and passwords come from files that are made when the site is started first."""
    for service in OURS:
        said = compose()["services"][service]["environment"]
        assert {name for name in said if "SECRET" in name or "PASSWORD" in name or "EMAIL_URL" in name} == {
            "GREENS_SECRET_KEY_FILE",
            "DATABASE_PASSWORD_FILE",
            "GREENS_EMAIL_URL_FILE",
        }


def test_the_archives_are_reached_by_the_backup_alone():
    services = compose()["services"]
    assert [
        name for name, one in services.items() if any("backups:" in at for at in one.get("volumes", []))
    ] == ["backup"]
    said = services["backup"]
    assert (
        said["command"][said["command"].index("--queues") + 1] == said["environment"]["GREENS_BACKUP_QUEUE"]
    )


def test_the_proxy_writes_no_address_that_was_asked_for():
    said = (DOCKER / "Caddyfile").read_text()
    assert re.findall(r"^\t*(request>\S+ delete)$", said, re.MULTILINE) == [
        "request>uri delete",
        "request>headers delete",
    ]
    assert re.findall(r"^\tlog\b.*$", said, re.MULTILINE) == ["\tlog default {"]


@pytest.fixture
def told(tmp_path):
    """Runs a script of docker/ with programs that only note what they are told; answers the notes."""
    (tmp_path / "programs").mkdir()
    for name in ("docker", "git"):
        program = tmp_path / "programs" / name
        program.write_text('#!/bin/sh\necho "$(basename "$0") $*"\n')
        program.chmod(0o755)
    for script in DOCKER.glob("*.sh"):
        shutil.copy(script, tmp_path)

    def run(script: str) -> list[str]:
        started = ["env", f"PATH={tmp_path}/programs:/usr/bin:/bin", "sh", tmp_path / script]
        return subprocess.run(started, capture_output=True, text=True, check=True).stdout.splitlines()

    return run


UP = "docker compose up --detach --build --wait"


def test_secrets_are_made_once_and_read_by_nobody_else(told, tmp_path):
    kept = []
    for _ in range(2):
        assert told("up.sh") == [UP]
        kept.append({file.name: file.read_text() for file in (tmp_path / "secrets").iterdir()})
    assert kept[0] == kept[1] and set(kept[0]) == set(compose()["secrets"])
    assert all(len(kept[0][name]) > 50 for name in ("secret_key", "database_password"))
    assert (tmp_path / "secrets").stat().st_mode & 0o777 == 0o700


def test_nothing_is_upgraded_before_a_backup(told):
    assert told("upgrade.sh") == [
        "docker compose exec --no-TTY backup python manage.py backup",
        "git pull --ff-only",
        UP,
    ]


# ---- the processes ----------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def composed(tmp_path_factory):
    if programs() is None or shutil.which("redis-server") is None:
        pytest.skip("no PostgreSQL or no Redis here")
    with postgresql() as database, redis() as messages:
        ports = [int(re.search(r":(\d+)/", url)[1]) for url in (database, messages)]
        yield Composed(tmp_path_factory.mktemp("composed"), *ports)


def kept(composed: Composed, question: str):
    where = f"postgres://greens@127.0.0.1:{composed.database_port}/postgres"
    with psycopg.connect(where) as connection:
        return connection.execute(question).fetchone()[0]


def test_two_webs_and_a_worker_start_at_once_on_an_empty_database_and_stop_clean(composed):
    ports = [free_port(), free_port()]
    with ExitStack() as running:
        webs = [running.enter_context(composed.started("web", port)) for port in ports]
        assert until(lambda: ended(webs) or all(map(is_heard, ports)))
        assert (ended(webs), [composed.is_healthy(port) for port in ports]) == ([], [True, True])
        assert [ask(port, "/readyz")[0] for port in ports] == [200, 200]
        assert_served(ports)
        worker = running.enter_context(composed.started("worker"))
        queue = [sys.executable, "-c", QUEUE]
        subprocess.run(queue, cwd=ROOT, env=composed.environment("worker"), check=True)
        assert until(lambda: kept(composed, "SELECT count(*) FROM greens_weatherday") == 5)
    assert [process.returncode for process in (*webs, worker)] == [0, 0, 0]


def ended(processes) -> list[str]:
    """What those said that came to an end."""
    return [one.stderr.read() for one in processes if one.poll() is not None]


def assert_served(ports: list[int]) -> None:
    """The page of signing in, over https as far as the browser is concerned."""
    answers = [ask(port, "/sign-in/") for port in ports]
    assert [status for status, _, _ in answers] == [200, 200]
    assert all("Strict-Transport-Security" in heads for _, _, heads in answers)
    assert all("Secure" in heads["Set-Cookie"] for _, _, heads in answers)
