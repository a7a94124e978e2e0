"""What every page costs beside a bare one: ``python -m tests.bench.pages`` (``--json``: figures alone)."""

import json
import os
import sys
from dataclasses import asdict

import pytest

#: How often every page is visited, and what seems dear after that.
ROUNDS = int(os.environ.get("GREENS_BENCH_ROUNDS", "1"))
AGAIN = max(6, 3 * ROUNDS)


def main() -> int:
    """Runs the measurement as a test, so that its database is made and thrown away."""
    os.environ["BENCH_IN_FULL"] = "1"
    return pytest.main(
        ["-q", "-s", "-p", "no:cacheprovider", "-m", "bench", "tests/bench/test_pages.py", *sys.argv[1:]]
    )


def table(found: dict, queries: dict[str, int]) -> str:
    """A page in a line: its milliseconds, those of the bare page of its weight, their ratio; the same
    and the queries for the first visit after something in the club's record changed."""
    lines = [f"{'page':<26}{'ms':>7}{'bare':>7}{'ratio':>7}{'changed':>9}{'ratio':>7}{'queries':>9}"]
    for name, cost in found.items():
        lines.append(
            f"{name:<26}{cost.page_ms:>7.1f}{cost.bare_ms:>7.1f}{cost.ratio:>7.2f}"
            f"{cost.changed_ms:>9.1f}{cost.ratio_changed:>7.2f}{queries[name]:>9}"
        )
    return "\n".join(lines)


def as_json(found: dict, queries: dict[str, int]) -> str:
    return json.dumps({name: asdict(cost) | {"queries": queries[name]} for name, cost in found.items()})


if __name__ == "__main__":
    sys.exit(main())
