"""Usual words of clubs' books for works, measures and kinds of product; the rest is said by hand once."""

from collections.abc import Mapping

from growin.agronomy.measures import MEASURES
from growin.agronomy.works import WORKS

_USUAL_WORKS: Mapping[str, str] = {
    "cut": "cutting, mow, mowed, mown, mowing, cut greens, mow greens, hand mow, hand cut",
    "roll": "roll, rolling, rolled greens, turf iron, ironed",
    "dressing": "topdress, topdressing, top dress, top dressing, top dressed, dressing, dressed, sanding",
    "brush": "brush, brushing",
    "aerate": "aerate, aeration, spike, spiked, spiking",
    "feed": "feed, feeding, fertilise, fertilised, fertiliser, fertilize, fertilizer, liquid feed",
    "overseed": "overseed, overseeding, seeded, seeding",
    "water": "water, watering, irrigate, irrigated, irrigation",
    "hand_water": "hand water, hand watering",
    "wetting_agent": "wetter, surfactant",
    "spray": "spray, sprayed, spraying",
    "hole_changed": "hole change, holes changed, changed holes, change holes, cups changed",
    "pitch_marks": "pitch marks, pitchmarks, repair pitch marks",
    "dew": "dew, switch, switched, switching",
    "leaves": "leaves, leaf clearing, blowing leaves",
    "note": "notes, remark, other, misc",
    "walk": "walked, inspection, inspected",
}
_USUAL_MEASURES: Mapping[str, str] = {
    "rooting_depth": "rooting depth, root depth, roots, rooting",
    "green_speed": "speed, green speed, greens speed, ball roll distance",
    "hardness": "hardness, firmness, surface hardness",
    "moisture": "moisture, soil moisture, vwc",
    "soil_temperature_100": "soil temperature, soil temp",
    "organic_matter": "organic matter, om",
    "height": "height, height of cut, hoc",
    "infiltration": "infiltration, infiltration rate",
    "cover": "cover, grass cover",
}
_USUAL_PRODUCTS: Mapping[str, str] = {
    "granular": "granular, granular feed, granular fertilizer, fertiliser, fertilizer, granules",
    "liquid": "liquid, liquid feed, soluble, foliar, liquid fertiliser, liquid fertilizer",
    "sand": "sand, top dressing, dressing, rootzone",
    "seed": "seed, grass seed, seeds",
    "wetting_agent": "wetter, surfactant",
    "spray": "spray, pesticide, fungicide, herbicide, insecticide, growth regulator, pgr, ppp",
    "other": "other, misc, biostimulant",
}


def plain_word(text: str) -> str:
    """A word as it is compared: small letters, single blanks."""
    return " ".join(text.lower().split())


def words_of_works() -> dict[str, str]:
    """Kind of work by every word for it."""
    return _meanings({key: work.words for key, work in WORKS.items()}, _USUAL_WORKS)


def words_of_measures() -> dict[str, str]:
    """Measure by every word for it."""
    return _meanings({key: measure.words for key, measure in MEASURES.items()}, _USUAL_MEASURES)


def words_of_products(kinds: Mapping[str, str]) -> dict[str, str]:
    """Kind of product by every word for it; ``kinds`` are the words shown, by key."""
    return _meanings(kinds, _USUAL_PRODUCTS)


def _meanings(shown: Mapping[str, str], usual: Mapping[str, str]) -> dict[str, str]:
    found = {word: key for key, words in usual.items() for word in words.split(", ")}
    own = {plain_word(word): key for key, words in shown.items() for word in (key.replace("_", " "), words)}
    return found | own | {key: key for key in shown}
