"""What a phone is handed with the form of a set: how values are typed, and what they are held to."""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from greens import units
from greens.models import Green
from growin.agronomy.measure import SHAPE_NUMBER, Measure
from growin.agronomy.outline import DEGREE_M, Outline
from growin.agronomy.plain_words import singular
from growin.agronomy.settle import quantiles, terms_of
from growin.evidence.due import Asked

#: Decimals of a mean on a page, as :func:`growin.agronomy.plain_words.amount` shows them.
PLACES = 1


def terms(measure: Measure, asked: Mapping[int, Asked]) -> dict:
    """All of it for one measure; ``asked`` is what is wanted on each green that the form may be of."""
    return {
        "shape": measure.shape,
        "whole": measure.whole,
        "low": measure.low,
        "high": measure.high,
        "largest_decides": measure.largest_decides,
        "usual": measure.usual_count,
        "places": measure.places_words,
        "place": singular(measure.places_words),
        "unit": in_club_units(measure),
        "degree_m": DEGREE_M,
        "greens": {str(pk): on_green(one) for pk, one in asked.items()},
        "quantiles": {str(one): quantiles(one) for one in confidences(asked.values())},
    }


def in_club_units(measure: Measure) -> dict:
    """The unit read, and the line that makes a stored figure of a typed one: typed × per + from."""
    shown = units.quantity(measure.unit)
    at_nought, at_one = (float(shown.back(Decimal(n))) if shown else n for n in (0, 1))
    sign = units.sign(measure.unit) if measure.shape == SHAPE_NUMBER else ""
    return {"sign": sign, "per": at_one - at_nought, "from": at_nought, "places": None if shown else PLACES}


def on_green(asked: Asked) -> dict:
    return {
        "count": asked.count,
        "confidence": asked.confidence,
        "half_width_share": asked.half_width_share,
        "rules": [terms_of(one) for one in asked.rules],
        "outline": asked.outline and outlined(asked.outline),
        "origin": origin_of(asked.green),
    }


def outlined(outline: Outline) -> dict:
    """The outline to a tenth of a metre."""
    points = [[round(x, 1), round(y, 1)] for x, y in outline.points_m]
    return {"points_m": points, "words": outline.words}


def origin_of(green: Green) -> list[float] | None:
    """Latitude and longitude of the point the green was measured from, and where its outline points up."""
    known = green.latitude_deg, green.longitude_deg, green.bearing_deg
    return None if None in known else [float(one) for one in known]


def confidences(asked: Iterable[Asked]) -> set[float]:
    """Every confidence for which an interval of a mean is worked out."""
    asked = list(asked)
    of_rules = {terms_of(rule).get("confidence") for one in asked for rule in one.rules}
    return {one.confidence for one in asked} | of_rules - {None}
