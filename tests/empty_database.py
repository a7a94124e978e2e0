"""A database in a file, migrated and empty: for a site, migrating takes ten seconds, copying none."""

import fcntl
import sqlite3
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

import django

from tests.real_site import DATABASE, ROOT, Site


def made_once(kept_in: Path) -> Path:
    """The file of a database that is migrated and empty, made once by whoever wants it first."""
    file = kept_in / f"{sum_of_migrations()}.sqlite3"
    with (kept_in / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not file.exists():
            with TemporaryDirectory(dir=kept_in) as folder:
                Site(Path(folder)).do("manage.py", "migrate", "--verbosity", "0")
                copy_of(Path(folder) / DATABASE, Path(folder) / "whole").rename(file)
    return file


def sum_of_migrations() -> str:
    """Another one as soon as a migration, or Django, is another."""
    files = sorted(file for app in ("greens", "growin") for file in (ROOT / app / "migrations").glob("*.py"))
    return sha256(b"".join([django.__version__.encode(), *(file.read_bytes() for file in files)])).hexdigest()


def copy_of(database: Path, place: Path) -> Path:
    """A copy of a database in a file, whole even while others write into it."""
    with closing(sqlite3.connect(database)) as old, closing(sqlite3.connect(place)) as new:
        old.backup(new)
    return place
