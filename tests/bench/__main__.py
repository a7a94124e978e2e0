"""Every measurement at its full size, as tables and JSON: ``python -m tests.bench`` (some twenty minutes).

Pages beside a bare one, a long record beside a short one, the sweep, the forecast, the sums, what in and out
cost with 100,000 rows, fifty users at once, eight who write at once, how soon a site is up and what memory it
holds. Each runs as a test, so that its database is made and thrown away.
"""

import os
import sys

import pytest

if __name__ == "__main__":
    os.environ |= {"BENCH_IN_FULL": "1", "BENCH_BOOK_ROWS": "100000", "GREENS_BENCH_ROUNDS": "4"}
    sys.exit(pytest.main(["-q", "-p", "no:cacheprovider", "-m", "bench", "tests/bench", *sys.argv[1:]]))
