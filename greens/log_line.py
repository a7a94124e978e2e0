"""What every line that the site writes about itself carries while a request or a task is at work."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

_CARRIED: ContextVar[dict[str, object]] = ContextVar("carried", default={})  # noqa: B039 - never changed


@contextmanager
def carrying(**more: object) -> Iterator[None]:
    """Every line written within the block carries these words too."""
    before = _CARRIED.set(_CARRIED.get() | more)
    try:
        yield
    finally:
        _CARRIED.reset(before)


def carried() -> dict[str, object]:
    return _CARRIED.get()


def told(**words: object) -> dict[str, dict[str, object]]:
    """Words of one line alone, as ``extra`` of a call of its logger."""
    return {"told": words}


def words_of(record) -> dict[str, object]:
    """All that a line carries besides its sentence; its own words last."""
    return carried() | getattr(record, "told", {})
