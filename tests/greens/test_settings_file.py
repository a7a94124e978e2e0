"""The environment alone makes the difference between two sites; a bad value stops the start."""

import os
import subprocess
import sys

import pytest
from django.conf import settings
from django.core.exceptions import ImproperlyConfigured

from greens.config.env import from_files


def start(**environment) -> subprocess.CompletedProcess:
    inherited = {name: value for name, value in os.environ.items() if not name.startswith("GREENS_")}
    return subprocess.run(
        [sys.executable, "manage.py", "check"],
        cwd=settings.BASE_DIR,
        env=inherited | environment,
        capture_output=True,
        text=True,
        timeout=60,
    )


@pytest.mark.parametrize(
    ("environment", "said"),
    [
        ({"GREENS_HOSTS": "greens.example.org"}, "GREENS_SECRET_KEY is missing"),
        ({"GREENS_LOG": "loud"}, "GREENS_LOG is 'loud'; it should be one of quiet, text, json."),
        ({"GREENS_TODAY": "next spring"}, "it should be a day such as 2027-03-01"),
        ({"GREENS_BACKUP_AT": "tonight"}, "it should be a time such as 03:15"),
        ({"GREENS_SECRET_KEY_FILE": "/no/such/file"}, "/no/such/file, which cannot be read: No such file"),
    ],
)
def test_a_site_does_not_start_on_a_bad_value(environment, said):
    tried = start(**environment)
    assert tried.returncode != 0
    assert said in tried.stderr


def test_a_laptop_needs_no_key_of_its_own(tmp_path):
    assert start(GREENS_DATA_DIR=str(tmp_path)).returncode == 0


def test_a_secret_may_lie_in_a_file(tmp_path):
    (tmp_path / "key").write_text("long and random\n")
    said = {"GREENS_SECRET_KEY_FILE": f"{tmp_path}/key", "GREENS_HOSTS": "here", "SOME_OTHER_FILE": "/none"}
    assert from_files(said) == {"GREENS_SECRET_KEY": "long and random"}


@pytest.mark.parametrize(
    ("held", "more", "sentence"),
    [
        (b" \n", {}, "DATABASE_PASSWORD_FILE names {}, which is empty."),
        (b"\xff", {}, "DATABASE_PASSWORD_FILE names {}, which cannot be read: it is no text."),
        (
            b"one",
            {"DATABASE_PASSWORD": "two"},
            "DATABASE_PASSWORD and DATABASE_PASSWORD_FILE are both set; keep one of them.",
        ),
    ],
)
def test_a_file_that_says_no_secret_is_named(tmp_path, held, more, sentence):
    file = tmp_path / "password"
    file.write_bytes(held)
    with pytest.raises(ImproperlyConfigured) as refused:
        from_files({"DATABASE_PASSWORD_FILE": str(file)} | more)
    assert str(refused.value) == sentence.format(file)
