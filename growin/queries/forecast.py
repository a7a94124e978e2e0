"""The forecast that pages show: the newest one kept for a rebuild."""

from greens.models import Establishment
from growin.agronomy.forecast import Forecast


def newest(establishment: Establishment) -> Forecast | None:
    """The newest forecast of a rebuild; none is kept yet."""
    return None
