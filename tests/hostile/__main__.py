"""``python -m tests.hostile 10000 [SEED]``: a round as long as wanted; exit 1 on anything found.

It runs as a test, so that its database is made and thrown away.
"""

import os
import sys

import pytest

ROUND = "tests/house/test_bodies.py::test_bad_requests_break_nothing_and_show_nothing_of_another_club"


def main(times: str = "10000", seed: str = "1") -> int:
    os.environ |= {"HOSTILE_REQUESTS": times, "HOSTILE_SEED": seed}
    return pytest.main(["-q", "-s", "-p", "no:cacheprovider", "-p", "no:logging", ROUND])


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
