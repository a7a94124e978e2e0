"""Mowing: when to cut, and what clippings carry away."""

from typing import NamedTuple

from growin.agronomy.defaults import PUBLISHED, Default, table
from growin.agronomy.impossible import require_above, require_range

DEFAULTS = table(
    Default(
        "mowing.dry_matter_g_ml",
        0.06,
        "g/ml",
        "dry matter in a millilitre of clippings",
        0.02,
        0.2,
        PUBLISHED,
        "Woods, advisory articles 2019-2020",
    ),
)
DRY_MATTER_G_ML = DEFAULTS["mowing.dry_matter_g_ml"].value
#: Share of the leaf a cut may take (Cornell University gardening resources, The one-third rule).
ONE_THIRD = 1 / 3


class Clippings(NamedTuple):
    """Dry matter in clippings and the nutrient it carries, g/m²."""

    dry_matter_g_m2: float
    nutrient_g_m2: float


class ClippingVolume(NamedTuple):
    """Dry matter that holds an amount of nutrient, g/m², and its volume in the box, ml/m²."""

    dry_matter_g_m2: float
    clippings_ml_m2: float


def one_third_rule(height_of_cut_mm: float, share: float = ONE_THIRD) -> float:
    """Height of leaf at which to cut so that no more than a third of it goes, mm.

    Parameters
    ----------
    height_of_cut_mm : above 0.
    share : 0 to 0.9.

    Raises ImpossibleValue outside these ranges.
    Source: Cornell University gardening resources.
    """
    require_above("height of cut, mm", height_of_cut_mm)
    require_range("share of the leaf", share, 0, 0.9)
    return height_of_cut_mm / (1 - share)


def clippings_nitrogen(
    clippings_ml_m2: float, dry_matter_g_ml: float = DRY_MATTER_G_ML, nutrient_percent: float = 4.0
) -> Clippings:
    """Nitrogen, or another leaf nutrient, carried off with clippings.

    Parameters
    ----------
    clippings_ml_m2 : at least 0.
    dry_matter_g_ml : above 0 to 1.
    nutrient_percent : 0 to 100 of dry matter (leaf nitrogen of greens is about 4).

    Raises ImpossibleValue outside these ranges.
    Source: Woods, advisory articles 2019-2020.
    """
    require_range("clippings, ml/m²", clippings_ml_m2, 0)
    _require_dry_matter(dry_matter_g_ml)
    require_range("nutrient in dry matter, %", nutrient_percent, 0, 100)
    dry_matter_g_m2 = clippings_ml_m2 * dry_matter_g_ml
    return Clippings(dry_matter_g_m2, dry_matter_g_m2 * nutrient_percent / 100)


def clipping_volume(
    nutrient_g_m2: float, nutrient_percent: float = 4.0, dry_matter_g_ml: float = DRY_MATTER_G_ML
) -> ClippingVolume:
    """Clippings that an amount of nutrient grows; the reverse of :func:`clippings_nitrogen`.

    Parameters
    ----------
    nutrient_g_m2 : at least 0.
    nutrient_percent : above 0 to 100 of dry matter.
    dry_matter_g_ml : above 0 to 1.

    Raises ImpossibleValue outside these ranges.
    Source: Woods, advisory article 2019.
    """
    require_range("nutrient, g/m²", nutrient_g_m2, 0)
    require_above("nutrient in dry matter, %", nutrient_percent)
    require_range("nutrient in dry matter, %", nutrient_percent, 0, 100)
    _require_dry_matter(dry_matter_g_ml)
    dry_matter_g_m2 = nutrient_g_m2 * 100 / nutrient_percent
    return ClippingVolume(dry_matter_g_m2, dry_matter_g_m2 / dry_matter_g_ml)


def _require_dry_matter(dry_matter_g_ml: float) -> None:
    require_above("dry matter of clippings, g/ml", dry_matter_g_ml)
    require_range("dry matter of clippings, g/ml", dry_matter_g_ml, 0, 1)
