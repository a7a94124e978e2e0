"""Chances as people say them."""

_SAID = (
    (1, 10), (1, 5), (1, 4), (1, 3), (2, 5), (1, 2), (3, 5), (2, 3), (3, 4), (4, 5), (9, 10),
)  # fmt: skip
_LEAST, _MOST = 0.05, 0.95


def chance_words(chance: float, histories: int | None = None) -> str:
    """A chance in words, with the number of histories behind it where that is known.

    ``about 1 in 3``, ``less than 1 in 20``, ``more than 19 in 20``; with histories
    ``about 1 in 3, on 4 open histories``.
    """
    said = _said(chance)
    return said if histories is None else f"{said}, on {behind(histories)}"


def _said(chance: float) -> str:
    if chance < _LEAST:
        return "less than 1 in 20"
    if chance > _MOST:
        return "more than 19 in 20"
    part, whole = min(_SAID, key=lambda one: abs(one[0] / one[1] - chance))
    return f"about {part} in {whole}"


def behind(histories: int) -> str:
    """What a forecast was set from: "2 open histories and published durations"."""
    if not histories:
        return "published durations alone"
    return f"{histories} open histor{'y' if histories == 1 else 'ies'} and published durations"
