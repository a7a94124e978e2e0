"""Hundreds of questions that nobody thought of, put to a site that really serves.

schemathesis reads our own description and draws from it questions that keep it and questions that break
it. It finds no error on our side, no answer that the description does not know, nothing wrong that is
accepted and nothing right that is refused. It runs in an environment of its own (``tests/fuzzer/``).
"""

import json
import os
import subprocess

import pytest
from django.test import Client

from greens.actions.token import make_token
from growin.actions.programme import issue_programme
from tests.growin.ripe import make_ready
from tests.rows import rows_of

PYTHON = os.environ.get("PYTHON_OF_THE_FUZZER", "")
SECONDS = 25
pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(not PYTHON, reason="PYTHON_OF_THE_FUZZER names no environment with schemathesis"),
]


def narrowed(whole: dict, **known) -> dict:
    """The description with ids that exist, or every question would end at a club that does not."""
    asked = [one for path in whole["paths"].values() for one in path["get"]["parameters"]]
    for one in asked:
        one["schema"] |= {"enum": known[one["name"]]} if one["name"] in known else {}
    return whole


@pytest.fixture
def furnished(cast):
    """A club with something to tell at every address."""
    rows_of(cast.head, cast.establishment)
    make_ready(cast)
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    return cast


def test_no_question_breaks_the_interface(furnished, live_server, settings, tmp_path):
    settings.INTERFACE_QUESTIONS_A_MINUTE = 1_000_000
    green = furnished.green.pk
    ids = {"club_slug": [furnished.club.slug], "green_id": [green], "green": [green, green + 1_000]}
    described = narrowed(Client().get("/interface/v1/description.json").json(), **ids)
    (tmp_path / "described.json").write_text(json.dumps(described))
    token = make_token(member=furnished.adviser, name="A fuzzer")
    command = [
        *(PYTHON, "-m", "schemathesis.cli", "run", "described.json", "--url", live_server.url),
        *("--header", f"Authorization: Bearer {token}", "--checks", "all", "--no-color"),
        *("--phases", "coverage,fuzzing", "--max-time", str(SECONDS), "--seed", "1"),
    ]
    ran = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, timeout=4 * SECONDS)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    assert f"Tested: {len(described['paths'])}" in ran.stdout
