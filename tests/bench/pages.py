"""What every page costs beside a bare one: ``python -m tests.bench.pages`` (``--json``: figures alone)."""

import json
import os
import sys

import pytest

ROUNDS = int(os.environ.get("GREENS_BENCH_ROUNDS", "15"))


def main() -> int:
    """Runs the measurement as a test, so that its database is made and thrown away."""
    return pytest.main(
        ["-q", "-s", "-p", "no:cacheprovider", "-m", "bench", "tests/bench/test_pages.py", *sys.argv[1:]]
    )


def table(least: dict[str, float], ratios: dict[str, float], queries: dict[str, int]) -> str:
    lines = [f"{'page':<28}{'ms':>8}{'ratio':>8}{'queries':>9}"]
    lines += [
        f"{name:<28}{least[name]:>8.1f}{ratio:>8.2f}{queries[name]:>9}" for name, ratio in ratios.items()
    ]
    return "\n".join(lines)


def as_json(least: dict[str, float], ratios: dict[str, float], queries: dict[str, int]) -> str:
    return json.dumps({name: [least[name], ratios[name], queries[name]] for name in ratios})


if __name__ == "__main__":
    sys.exit(main())
