"""A child process that ends with its parent, however the parent ends; on Linux only."""

import ctypes
import signal
import sys

PR_SET_PDEATHSIG = 1
LIBC = ctypes.CDLL(None) if sys.platform == "linux" else None


def end_with_parent() -> None:
    """Have the system send TERM to this process when its parent is gone."""
    if LIBC is not None:
        LIBC.prctl(PR_SET_PDEATHSIG, signal.SIGTERM)
