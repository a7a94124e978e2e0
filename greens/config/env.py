"""What the environment may say, read once; a bad value stops the start with a sentence."""

import os
import re
from collections.abc import Mapping
from datetime import date, time
from pathlib import Path
from socket import gethostname

import environ
from django.core.exceptions import ImproperlyConfigured

BASE_DIR = Path(__file__).resolve().parents[2]
OURS = re.compile(r"(GREENS_\w+|DATABASE_URL|DATABASE_PASSWORD)_FILE")


def from_files(environment: Mapping[str, str]) -> dict[str, str]:
    """What lies in files that the environment names: ``GREENS_SECRET_KEY_FILE`` holds GREENS_SECRET_KEY."""
    named = {match[1]: path for name, path in environment.items() if (match := OURS.fullmatch(name)) and path}
    return {name: _held(name, path, environment) for name, path in named.items()}


def _held(name: str, path: str, environment: Mapping[str, str]) -> str:
    if environment.get(name):
        raise ImproperlyConfigured(f"{name} and {name}_FILE are both set; keep one of them.")
    try:
        held = Path(path).read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError) as failed:
        why = getattr(failed, "strerror", None) or "it is no text"
        raise ImproperlyConfigured(f"{name}_FILE names {path}, which cannot be read: {why}.") from None
    if not held:
        raise ImproperlyConfigured(f"{name}_FILE names {path}, which is empty.")
    return held


env = environ.Env()
env.ENVIRON = {**os.environ, **from_files(os.environ)}


def path(name: str, default: Path) -> Path:
    """A folder or file; relative ones count from the checkout."""
    return BASE_DIR / env.str(name, default=str(default))


def folder_of_counts(default: Path) -> Path:
    """Where the processes of this machine keep what they count; the library that counts is told so too."""
    folder = path("GREENS_METRICS_DIR", default / gethostname())
    folder.mkdir(parents=True, exist_ok=True)
    os.environ["PROMETHEUS_MULTIPROC_DIR"] = str(folder)
    return folder


def day(name: str) -> date | None:
    """A fixed day in ISO form, for demonstrations; none means the real clock."""
    text = env.str(name, default="")
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        raise ImproperlyConfigured(f"{name} is '{text}'; it should be a day such as 2027-03-01.") from None


#: How long a PostgreSQL is waited for before the site says that it is away.
PATIENCE_S = 5
SAFE_ON_SQLITE = {
    "timeout": 20,
    "transaction_mode": "IMMEDIATE",
    "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL;",
}


def one_of(name: str, words: tuple[str, ...]) -> str:
    """One of these words; the first unless the environment says another."""
    word = env.str(name, default=words[0])
    if word not in words:
        raise ImproperlyConfigured(f"{name} is '{word}'; it should be one of {', '.join(words)}.")
    return word


ONLY_HERE = frozenset({"localhost", "127.0.0.1", "[::1]", "testserver"})


def secret_key(hosts: list[str]) -> str:
    """The signing key; only a site that no other machine can ask for may run without one of its own."""
    key = env.str("GREENS_SECRET_KEY", default="")
    if not key and not ONLY_HERE.issuperset(hosts):
        raise ImproperlyConfigured("GREENS_SECRET_KEY is missing; set it to a long random text.")
    return key or "only-for-a-laptop-never-for-a-site-on-the-network"


def database(default: str) -> dict:
    """The database that DATABASE_URL names; its password may stand apart, in DATABASE_PASSWORD."""
    try:
        named = env.db_url("DATABASE_URL", default=default)
    except ValueError as odd:
        raise ImproperlyConfigured(f"DATABASE_URL cannot be read: {odd}.") from None
    if not named.get("ENGINE"):
        raise ImproperlyConfigured("DATABASE_URL should look like postgres://user@host:5432/name.")
    if password := env.str("DATABASE_PASSWORD", default=""):
        named["PASSWORD"] = password
    if named["ENGINE"].endswith("sqlite3"):
        named["OPTIONS"] = SAFE_ON_SQLITE
    else:
        named.setdefault("OPTIONS", {}).setdefault("connect_timeout", PATIENCE_S)
    return named


def clock_time(name: str) -> tuple[int, int] | None:
    """Hour and minute such as 03:15; none where nothing is said."""
    text = env.str(name, default="")
    try:
        at = time.fromisoformat(text) if text else None
    except ValueError:
        raise ImproperlyConfigured(f"{name} is '{text}'; it should be a time such as 03:15.") from None
    return (at.hour, at.minute) if at else None
