"""What the environment may say, read once; a bad value stops the start with a sentence."""

import os
from datetime import date
from pathlib import Path
from socket import gethostname

import environ
from django.core.exceptions import ImproperlyConfigured

BASE_DIR = Path(__file__).resolve().parents[2]
env = environ.Env()


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
