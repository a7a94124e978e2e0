"""The environment alone makes the difference between two sites; a bad value stops the start."""

import os
import subprocess
import sys

import pytest
from django.conf import settings


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
    ],
)
def test_a_site_does_not_start_on_a_bad_value(environment, said):
    tried = start(**environment)
    assert tried.returncode != 0
    assert said in tried.stderr


def test_a_laptop_needs_no_key_of_its_own(tmp_path):
    assert start(GREENS_DATA_DIR=str(tmp_path)).returncode == 0
