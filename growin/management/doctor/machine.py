"""The machine that the site runs on, examined: files, room, time, libraries."""

import shutil
from collections.abc import Callable, Iterable
from ctypes.util import find_library
from datetime import datetime, timedelta
from pathlib import Path
from uuid import uuid4
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.utils import timezone

from greens.queries import health
from growin.management.doctor.finding import Finding, fine, note, wrong

#: A laptop of a small club still has room for a season's photographs (our judgement).
LEAST_FREE_BYTES = 1_000_000_000
FAST_AT_MOST = timedelta(minutes=2)
PRESS = ("pango-1.0", "pangoft2-1.0", "harfbuzz-subset")


def files() -> Finding:
    """Whether photographs and documents can be kept, where nobody can fetch them past the doors."""
    folder, served = Path(settings.MEDIA_ROOT).resolve(), Path(settings.STATIC_ROOT).resolve()
    if folder.is_relative_to(served):
        return wrong(
            f"Files of clubs lie in {folder}, which is served to everybody.",
            f"Set GREENS_MEDIA_ROOT to a folder outside {served}.",
        )
    try:
        default_storage.delete(default_storage.save(f"doctor-{uuid4().hex}", ContentFile(b"written")))
    except Exception as failed:  # whatever kind of storage it is, what it says is what is wrong
        return wrong(
            f"Nothing can be written where files are kept: {failed}",
            f"Let the site write to {folder}, or set GREENS_MEDIA_ROOT to a folder that it may write to.",
        )
    return fine("can be kept")


def room(least_free_bytes: int = LEAST_FREE_BYTES) -> Finding:
    free = shutil.disk_usage(settings.DATA_DIR).free
    said = f"{free / 1e9:.1f} GB free at {settings.DATA_DIR}"
    if free < least_free_bytes:
        return wrong(f"{said}.", f"Make room, at least {least_free_bytes / 1e9:.0f} GB.")
    return fine(said)


def time_zones() -> Finding:
    return zones_known(health.time_zones())


def zones_known(names: Iterable[str]) -> Finding:
    unknown = sorted(name for name in {*names, "Europe/London"} if not is_known(name))
    if unknown:
        return wrong(
            f"Nothing is known of the time zone {', '.join(unknown)}.",
            "Install the tzdata of requirements.txt, or mend the club's time zone.",
        )
    return fine("known for every club")


def is_known(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True


def clock() -> Finding:
    return clock_beside(timezone.now(), health.newest_moment(), health.clock_of_the_database())


def clock_beside(now: datetime, newest: datetime | None, of_database: datetime) -> Finding:
    """Beside what was written last, and beside the clock of the database."""
    right = "Set the clock of this machine and of the database by a time server (NTP)."
    if newest and newest - now > FAST_AT_MOST:
        return wrong(
            f"It is {now:%Y-%m-%d %H:%M} UTC, before what was written at {newest:%H:%M %d %B}.", right
        )
    if abs(of_database - now) > FAST_AT_MOST:
        return wrong(f"It is {now:%H:%M:%S} UTC here and {of_database:%H:%M:%S} UTC in the database.", right)
    return fine(f"{now:%Y-%m-%d %H:%M} UTC")


def press(find: Callable[[str], str | None] = find_library) -> Finding:
    missing = [name for name in PRESS if not find(name)]
    if missing:
        return note(
            f"{', '.join(missing)} is not there: statement and season report cannot be set as PDF.",
            "apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
        )
    return fine("the statement can be set as PDF")
