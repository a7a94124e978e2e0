"""A PostgreSQL server of its own for one command: ``python -m tests.services pytest tests/greens``.

The server lies in a temporary folder, listens on a free port of this machine only, and is gone with
the command, which finds its address in DATABASE_URL. Exit status 69: there is no PostgreSQL here.
A Redis for one test stands here too.
"""

import os
import pwd
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

UNAVAILABLE = os.EX_UNAVAILABLE
SPEED_NOT_SAFETY = ("fsync=off", "synchronous_commit=off", "full_page_writes=off")
WAIT_S = 60


def main(command: list[str]) -> int:
    if programs() is None:
        print("PostgreSQL is not installed: no initdb and postgres found.", file=sys.stderr)
        return UNAVAILABLE
    signal.signal(signal.SIGTERM, lambda *_: sys.exit(143))
    with postgresql() as url:
        return subprocess.run(command, env=os.environ | {"DATABASE_URL": url}).returncode


@contextmanager
def postgresql() -> Iterator[str]:
    """The address of a server that lives as long as the block."""
    folder, user = Path(tempfile.mkdtemp(prefix="greens-postgresql-")), unprivileged_user()
    try:
        if user:
            shutil.chown(folder, user)
        with running(folder, user) as port:
            yield f"postgres://greens@127.0.0.1:{port}/postgres"
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def running(folder: Path, user: str | None) -> Iterator[int]:
    where, data, port = programs(), folder / "data", free_port()
    initdb = [
        where / "initdb",
        "-D",
        data,
        "-U",
        "greens",
        "-A",
        "trust",
        "-E",
        "UTF8",
        "--locale=C",
        "--no-sync",
    ]
    subprocess.run(initdb, user=user, cwd=folder, check=True, stdout=subprocess.DEVNULL)
    settings = [part for setting in SPEED_NOT_SAFETY for part in ("-c", setting)]
    address = ["-h", "127.0.0.1", "-p", str(port), "-k", ""]
    with (folder / "log").open("w") as log:
        command = [where / "postgres", "-D", data, *address, *settings]
        server = subprocess.Popen(command, user=user, cwd=folder, stdout=log, stderr=log)
    try:
        wait_for(port, server, folder / "log")
        yield port
    finally:
        server.send_signal(signal.SIGINT)
        server.wait()


@contextmanager
def redis(port: int = 0) -> Iterator[str]:
    """The address of a Redis that keeps nothing and lives as long as the block."""
    port = port or free_port()
    folder = tempfile.mkdtemp(prefix="greens-redis-")
    command = ["redis-server", "--port", str(port), "--bind", "127.0.0.1", "--dir", folder]
    server = subprocess.Popen([*command, "--save", "", "--appendonly", "no"], stdout=subprocess.DEVNULL)
    try:
        wait_until_heard(port)
        yield f"redis://127.0.0.1:{port}/0"
    finally:
        server.terminate()
        server.wait()
        shutil.rmtree(folder, ignore_errors=True)


def wait_until_heard(port: int) -> None:
    """Until somebody listens there. Raises TimeoutError."""
    give_up_at = time.monotonic() + WAIT_S
    while time.monotonic() < give_up_at:
        if is_heard(port):
            return
        time.sleep(0.05)
    raise TimeoutError(f"Nobody listens on port {port}.")


def is_heard(port: int) -> bool:
    """Whether somebody listens there."""
    with suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=1):
        return True
    return False


def wait_for(port: int, server: subprocess.Popen, log: Path) -> None:
    """Until the server answers; raises RuntimeError with its own words when it does not."""
    give_up_at = time.monotonic() + WAIT_S
    while server.poll() is None and time.monotonic() < give_up_at:
        if answers(port):
            return
        time.sleep(0.1)
    raise RuntimeError(f"PostgreSQL did not start:\n{log.read_text()}")


def answers(port: int) -> bool:
    asked = subprocess.run([programs() / "pg_isready", "-q", "-h", "127.0.0.1", "-p", str(port)], check=False)
    return asked.returncode == 0


def programs() -> Path | None:
    """The folder with initdb and postgres, the newest where there are several."""
    on_path = [Path(found).resolve().parent for found in [shutil.which("initdb")] if found]
    folders = [*sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=version, reverse=True), *on_path]
    return next((one for one in folders if (one / "initdb").exists() and (one / "postgres").exists()), None)


def version(folder: Path) -> float:
    name = folder.parent.name
    return float(name) if name.replace(".", "").isdigit() else 0


def unprivileged_user() -> str | None:
    """PostgreSQL refuses to run as root; then it runs as somebody who owns nothing."""
    if os.geteuid() != 0:
        return None
    names = {one.pw_name for one in pwd.getpwall()}
    return next(name for name in ("postgres", "nobody") if name in names)


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
