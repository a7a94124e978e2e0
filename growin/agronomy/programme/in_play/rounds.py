"""How a year in play is laid out: how far ahead, how much, in which months; each a setting.

Months are those of the north; in the south they stand six months later.
"""

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, PUBLISHED, Default, table


def _of(key, value, unit, low, high, words, mark=OUR_JUDGEMENT, source="") -> Default:
    return Default(f"in_play.{key}", value, unit, words, low, high, mark, source)


def _month(key, value, words, mark=COMMON_PRACTICE, source="") -> Default:
    return _of(key, value, "month", 1, 12, words, mark, source)


DEFAULTS = table(
    _of("ahead_days", 426, "days", 365, 460, "how far ahead the programme of a green in play reaches"),
    _of("nitrogen_share", 0.5, "", 0, 1, "where in the band of its grass a year's nitrogen is planned"),
    _of("dose_n_kg_ha", 8, "kg N/ha", 3, 15, "one feed in play, at most", COMMON_PRACTICE,
        "at most 8 a week in summer"),
    _of("winter_n_kg_ha", 8, "kg N/ha", 0, 15, "nitrogen of a winter month, at most, as colour needs",
        COMMON_PRACTICE, "0–8 kg/ha a month"),
    _month("feed_from", 3, "first month of feeding by growth"),
    _month("feed_until", 10, "last month of feeding by growth"),
    _of("dressings_a_month", 2, "", 0, 4, "light dressings a month in growth", COMMON_PRACTICE,
        "every 7–14 days in growth, within 6–12 kg/m² a season"),
    _month("dress_from", 4, "first month of light dressings"),
    _month("dress_until", 10, "last month of light dressings"),
    _month("coring", 8, "month of hollow coring"),
    _of("winter_up_mm", 1.5, "mm", 0, 3, "higher in winter than in summer by", COMMON_PRACTICE, "1–3 mm"),
    _month("height_up", 11, "month by which the height is up"),
    _month("height_down", 3, "month from which the height comes down again"),
    _month("microdochium_from", 10, "first of the cool, wet months with a weekly walk"),
    _month("microdochium_until", 3, "last of the cool, wet months with a weekly walk"),
    _of("take_all_years", 2, "years", 0, 5, "years in play with a watch for take-all on new sand with bent"),
    _month("take_all_from", 6, "first month of the watch for take-all"),
    _month("take_all_until", 9, "last month of the watch for take-all"),
    _month("dry_patch_from", 6, "first month of the watch for dry patch and fairy rings"),
    _month("dry_patch_until", 8, "last month of the watch for dry patch and fairy rings"),
    _month("poa_spring", 5, "month of the first reading of annual meadow-grass (Poa)"),
    _month("poa_autumn", 10, "month of the second reading of annual meadow-grass (Poa)"),
    _month("face", 4, "month of the cores at the turf/rootzone face"),
    _month("organic_matter", 6, "month of the samples for organic matter", PUBLISHED,
           "by layer, same method: STRI 2010; the month our judgement"),
    _month("analyses", 2, "month of the soil and water analyses", OUR_JUDGEMENT),
    _month("firmness_from", 4, "first month of hardness and moisture readings"),
    _month("firmness_until", 10, "last month of hardness and moisture readings"),
    _of("photograph_months", 3, "months", 1, 12, "between photographs from the fixed point in play"),
)  # fmt: skip
