"""In and out within their gates: time by ratio, memory whatever the length of the diary."""

import json
from dataclasses import asdict
from pathlib import Path

import pytest
from django.db import connection

from tests.bench.books import (
    TWENTY_SEASONS,
    csv_race,
    furnished,
    grow_to,
    memory,
    table,
    workbook_race,
)
from tests.bench.gates import gate

pytestmark = [pytest.mark.bench, pytest.mark.django_db(transaction=True)]
MOST_MB = 200


def test_in_and_out_keep_within_their_gates(cast, capsys, tmp_path):
    furnished(cast)
    races = [workbook_race(), csv_race(cast)]
    held = None
    if connection.vendor == "sqlite" and Path("/proc/self/status").exists():
        grow_to(TWENTY_SEASONS)
        held = memory(cast, tmp_path)
    with capsys.disabled():
        print(f"\n{table(races, held)}\n{json.dumps([asdict(one) for one in races])}")
    assert {one.name: one.ratio for one in races if one.ratio > gate(one.at_most)} == {}
    assert held is None or held[1] <= MOST_MB
