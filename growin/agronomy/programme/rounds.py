"""How often the rounds of grow-in come: a table of days, each a setting."""

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, Default, table


def _days(key, value, words, mark=OUR_JUDGEMENT, source="") -> Default:
    return Default(f"rounds.{key}", value, "days", words, 1, 120, mark, source)


DEFAULTS = table(
    _days("roll", 14, "between light rolls"),
    _days("photograph", 28, "between photographs from the fixed point"),
    _days("drains", 42, "between looks at the drain outlets"),
    _days("drains_wet", 14, "between looks at the drain outlets where water is slow to leave"),
    _days("hand_water", 14, "between rounds of hand watering before opening"),
    _days("hand_water_dry", 7, "between rounds of hand watering where it dries soon"),
    _days("roots", 14, "between readings of roots"),
    _days("roots_spring", 7, "between readings of roots of autumn turf in spring", COMMON_PRACTICE,
        "roots weekly"),
    _days("roots_winter", 56, "between readings of roots while the green rests"),
    _days("joints_first", 7, "from laying to the first round of the joints", COMMON_PRACTICE,
        "first three weeks"),
    _days("joints_second", 21, "from laying to the second round of the joints", COMMON_PRACTICE,
          "first three weeks"),
    _days("settling_growth", 42, "from laying in growth to the round of settled places"),
    _days("settling_first", 56, "from laying in autumn to the first round of settled places", COMMON_PRACTICE,
          "November to February"),
    _days("settling_second", 84, "from laying in autumn to the second round of settled places",
        COMMON_PRACTICE,
          "November to February"),
    _days("set_first", 28, "before opening: first whole set of readings"),
    _days("set_second", 14, "before opening: second whole set of readings"),
    _days("set_last", 4, "before opening: last whole set of readings, inspected with the adviser"),
    _days("recheck_first", 7, "after opening: first recheck"),
    _days("recheck_second", 14, "after opening: second recheck"),
    _days("recheck_last", 28, "after opening: last recheck"),
    _days("daily_walk", 21, "from laying: a walk every day", COMMON_PRACTICE, "weeks 0–3"),
    _days("window", 21, "either side of a round's likely day, at most, for its earliest and latest"),
    _days("soil_watch", 14, "before growth resumes: start of the morning soil readings"),
)  # fmt: skip
