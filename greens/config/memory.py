"""Where what was worked out is kept between requests: in Redis for all web processes where there is one, else
by each process for itself."""

import hashlib
from pathlib import Path

from greens.config.env import BASE_DIR

OF_EACH_PROCESS = {"BACKEND": "django.core.cache.backends.locmem.LocMemCache"}
#: A page waits no longer for a memory that does not answer.
PATIENCE_S = 0.25
PROGRAM = ("requirements.txt", "greens/**/*.py", "growin/**/*.py")


def shared_through(url: str) -> dict:
    """The memory of all processes of one program; an upgraded one never reads what the old one kept."""
    return {
        "BACKEND": "greens.memory.Shared",
        "LOCATION": url,
        "KEY_PREFIX": f"kept-{mark_of_the_program()}",
        "OPTIONS": {"socket_connect_timeout": PATIENCE_S, "socket_timeout": PATIENCE_S},
    }


def mark_of_the_program(folder: Path = BASE_DIR) -> str:
    """Another after every change to the program."""
    mark = hashlib.sha256()
    for path in sorted(one for pattern in PROGRAM for one in folder.glob(pattern)):
        mark.update(hashlib.sha256(path.read_bytes()).digest())
    return mark.hexdigest()[:16]
