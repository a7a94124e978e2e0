"""The worker as a child of the process that serves: begun with it, begun again when it dies, stopped with it.

It stands in a session of its own, so that Ctrl-C reaches the parent alone, which then stops it
warm; when the parent is killed outright, the system tells the worker to stop.
"""

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress

from growin.management.parent import end_with_parent

AS_ROOT_IN_A_CONTAINER = "ignore:You're running the worker with superuser privileges"
COMMAND = (
    *(sys.executable, "-W", AS_ROOT_IN_A_CONTAINER, "-m", "celery", "-q", "-A", "greens.config", "worker"),
    *("--beat", "--pool", "threads", "--concurrency", "2", "--loglevel", "ERROR"),
    *("--without-gossip", "--without-mingle"),
)
WAIT_FOR_WARM_END_S = 20
PAUSE_S, LONGEST_PAUSE_S = 1, 60
LIVED_WELL_S = 60


@contextmanager
def worker_beside() -> Iterator[None]:
    """A worker for as long as the block lasts."""
    keeper = Keeper()
    keeper.start()
    try:
        yield
    finally:
        keeper.stop()


class Keeper(threading.Thread):
    """Begins the worker, and begins it again whenever it ends before it should.

    The worker is begun from this thread alone: to the system a parent is the thread that began a child.
    """

    def __init__(self):
        super().__init__(name="keeper of the worker", daemon=True)
        self.is_over = threading.Event()

    def run(self) -> None:
        pause = PAUSE_S
        while not self.is_over.is_set():
            lived = self.run_once()
            pause = PAUSE_S if lived > LIVED_WELL_S else min(2 * pause, LONGEST_PAUSE_S)
            self.is_over.wait(pause)

    def run_once(self) -> float:
        """One life of a worker, in seconds; nothing that it began outlives it."""
        began = time.monotonic()
        worker = subprocess.Popen(COMMAND, start_new_session=True, preexec_fn=end_with_parent)
        try:
            self.watch(worker)
        finally:
            with suppress(ProcessLookupError):
                os.killpg(worker.pid, signal.SIGKILL)
            worker.wait()
        return time.monotonic() - began

    def watch(self, worker: subprocess.Popen) -> None:
        """Until it ends, or until it must: then TERM, and some patience for the work in hand."""
        while worker.poll() is None and not self.is_over.wait(0.2):
            pass
        if worker.poll() is None:
            worker.terminate()
            with suppress(subprocess.TimeoutExpired):
                worker.wait(WAIT_FOR_WARM_END_S)

    def stop(self) -> None:
        self.is_over.set()
        self.join()
