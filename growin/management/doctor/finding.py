"""What an examination found."""

from dataclasses import dataclass
from enum import Enum
from urllib.parse import urlsplit

from django.conf import settings

THIS_MACHINE = {"localhost", "127.0.0.1", "::1"}


class State(Enum):
    FINE = "fine"
    NOTE = "note"
    NOT_KNOWN = "not known"
    WRONG = "wrong"


@dataclass(frozen=True)
class Finding:
    """``words`` say what is there, ``right`` what would be right where it is not."""

    state: State
    words: str
    right: str = ""


def fine(words: str) -> Finding:
    return Finding(State.FINE, words)


def note(words: str, right: str) -> Finding:
    """Something is missing that not everybody needs."""
    return Finding(State.NOTE, words, right)


def wrong(words: str, right: str) -> Finding:
    return Finding(State.WRONG, words, right)


def not_known(words: str, right: str) -> Finding:
    """It cannot be told before something else is mended."""
    return Finding(State.NOT_KNOWN, words, right)


def is_laptop() -> bool:
    """Whether the site's address means this machine alone: then it may do without https, mail and a key."""
    return urlsplit(settings.SITE_URL).hostname in THIS_MACHINE
