"""Fifty users on gunicorn and PostgreSQL meet no error, and wait at most twice as long as for bare pages."""

import json
from dataclasses import asdict

import pytest

from tests.bench.gates import IN_FULL, gate
from tests.bench.load import measured, table
from tests.services import programs

pytestmark = [
    pytest.mark.bench,
    pytest.mark.skipif(not IN_FULL, reason="some four minutes: python -m tests.bench"),
    pytest.mark.skipif(programs() is None, reason="no PostgreSQL here"),
]
AT_MOST = 2.0


def test_fifty_users_are_served(capsys):
    found = measured()
    with capsys.disabled():
        print(f"\n{table(found)}\n{json.dumps(asdict(found) | {'ratio': found.ratio})}")
    assert found.errors == []
    assert found.ratio <= gate(AT_MOST)
