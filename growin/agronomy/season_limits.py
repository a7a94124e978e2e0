"""How a season's sum stands to its limit: well below, close to it, over it."""

from growin.agronomy.defaults import OUR_JUDGEMENT, Default, table

NEAR, OVER = "close to", "over"

DEFAULTS = table(
    Default(
        "season.near_percent",
        85,
        "%",
        "Share of a season's limit from which it counts as close",
        50,
        100,
        OUR_JUDGEMENT,
    ),
)


def standing(total: float, limit: float, near_percent: float) -> str:
    """:data:`OVER` above the limit, :data:`NEAR` from ``near_percent`` of it on, else empty.

    Parameters
    ----------
    total, limit : in the same unit.
    near_percent : share of the limit, %.
    """
    if total > limit:
        return OVER
    return NEAR if total >= limit * near_percent / 100 else ""
