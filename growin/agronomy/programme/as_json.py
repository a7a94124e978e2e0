"""A programme from plain data and back to it, for the command line."""

from datetime import date

from growin.agronomy import climate, dressing, feeding, gates, heights, season_nutrition, species
from growin.agronomy.climate import Climate
from growin.agronomy.defaults import merge, values
from growin.agronomy.measured_days import check_measured_days
from growin.agronomy.programme import pace, rounds
from growin.agronomy.programme.draw import draw_programme
from growin.agronomy.programme.facts import RISKS, GreenFacts
from growin.agronomy.programme.in_play import rounds as in_play_rounds
from growin.agronomy.programme.step import Step

TABLES = (
    species.DEFAULTS,
    heights.DEFAULTS,
    gates.DEFAULTS,
    feeding.DEFAULTS,
    season_nutrition.DEFAULTS,
    dressing.DEFAULTS,
    climate.DEFAULTS,
    pace.DEFAULTS,
    rounds.DEFAULTS,
    in_play_rounds.DEFAULTS,
)
#: What the file's ``green`` may say: how it is read, and whether it must be there.
GREEN_KEYS = {
    "area_m2": ("number", True),
    "establishment": ("word", True),
    "species": ("word", True),
    "established_on": ("day", True),
    "latitude_deg": ("number", True),
    "target_height_mm": ("number", False),
    "others_height_mm": ("number", False),
    "turf_soil_finer": ("yes_no", False),
    "adviser_agrees": ("yes_no", False),
    "risks": ("risks", False),
    "distance_to_water_m": ("number", False),
    "bulk_density_t_m3": ("number", False),
    "closed_from": ("word", False),
    "closed_until": ("word", False),
    "year_limit_n_kg_ha": ("number", False),
    "year_limit_p_kg_ha": ("number", False),
}
WEATHER_KEYS = ("normals_c", "daily")
#: What a file may say of a green; the programme and the forecast take what they need of it.
FILE_KEYS = ("green", "weather", "readings", "height_of_cut", "today", "ask")
#: Said about a file, not used.
REMARKS = ("about", "id", "kind", "note", "normals_are", "established_precision",
           "opened_on", "opened_precision", "opening")  # fmt: skip


def default_settings() -> dict[str, float]:
    """Every constant of the programme at its default."""
    return values(merge(TABLES))


def programme_from_file(parsed: dict) -> dict:
    """The programme of a parsed file: ``{"steps": [...]}`` with ISO dates.

    Raises
    ------
    ValueError
        For a word, a number or a date that is not known or not possible, in one sentence.
    """
    check_file(parsed)
    facts, weather = facts_from(parsed["green"]), climate_from(parsed["weather"])
    return {"steps": [step_as_json(step) for step in draw_programme(facts, weather, default_settings())]}


def check_file(parsed) -> None:
    """Refuse a parsed file with unknown or missing names.

    Raises
    ------
    ValueError
        With the name, in one sentence.
    """
    _known("the file", _mapping("the file", parsed), (*FILE_KEYS, *REMARKS), ("green", "weather"))


def step_as_json(step: Step) -> dict:
    """One step as plain data."""
    return {
        "key": step.key,
        "kind": step.kind,
        "earliest": step.earliest.isoformat(),
        "likely": step.likely.isoformat(),
        "latest": step.latest.isoformat(),
        "amount": step.amount,
        "unit": step.unit,
        "why": step.why,
        "source": f"{step.mark}: {step.source}" if step.source else step.mark,
    }


def facts_from(green: dict) -> GreenFacts:
    """The facts of the file's ``green``.

    Raises
    ------
    ValueError
        For unknown or missing words.
    """
    needed = tuple(key for key, (_, must) in GREEN_KEYS.items() if must)
    _known("the green", _mapping("the green", green), tuple(GREEN_KEYS), needed)
    said = {key: READ[GREEN_KEYS[key][0]](key, value) for key, value in green.items() if value is not None}
    said["summer_height_mm"] = said.pop("target_height_mm", None)
    if said.pop("turf_soil_finer", False):
        said["risks"] = (*said.get("risks", ()), "turf_soil_finer")
    return GreenFacts(**said)


def climate_from(weather: dict) -> Climate:
    """The climate of the file's ``weather``.

    Raises
    ------
    ValueError
        For normals or days that cannot be.
    """
    _known("the weather", _mapping("the weather", weather), WEATHER_KEYS, ("normals_c",))
    normals = weather["normals_c"]
    if not isinstance(normals, list) or len(normals) != 12:
        raise ValueError("normals_c should be twelve monthly means in °C, January first.")
    monthly = tuple(number_from("normals_c", one) for one in normals)
    days = [_measured(one) for one in rows_from("daily", weather)]
    climate = Climate(monthly, daily=dict(days))
    check_measured_days([day for day, _ in days], climate)
    return climate


def rows_from(key: str, given: dict) -> list:
    """The rows under a name, none where it is missing.

    Raises
    ------
    ValueError
        When it is no list.
    """
    rows = given.get(key)
    if not isinstance(rows, list | None):
        raise ValueError(f"{key} should be a list, not {rows!r}.")
    return rows or []


def _measured(row) -> tuple[date, float]:
    if not isinstance(row, list | tuple) or len(row) != 2:
        raise ValueError(f"A measured day should be [date, mean in °C], not {row!r}.")
    return day_from("daily", row[0]), number_from("daily", row[1])


def day_from(what: str, text) -> date:
    """A day written as 2026-03-31.

    Raises
    ------
    ValueError
        For anything else.
    """
    try:
        return date.fromisoformat(text)
    except (TypeError, ValueError):
        raise ValueError(f"{what}: {text!r} is not a day; it should be written as 2026-03-31.") from None


def number_from(what: str, value) -> float:
    """A number, refusing text and true/false.

    Raises
    ------
    ValueError
        For anything else.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{what}: {value!r} is not a number.")
    return float(value)


def _word(what: str, value) -> str:
    if not isinstance(value, str):
        raise ValueError(f"{what}: {value!r} is not a word.")
    return value


def _yes_no(what: str, value) -> bool:
    if not isinstance(value, bool):
        raise ValueError(f"{what}: {value!r} should be true or false.")
    return value


def _risks(what: str, value) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise ValueError(f"{what}: {value!r} should be a list of words.")
    unknown = [one for one in value if not isinstance(one, str) or one not in RISKS]
    if unknown:
        raise ValueError(f"{what}: {unknown[0]!r} is not known; allowed are {', '.join(RISKS)}.")
    return tuple(value)


READ = {"number": number_from, "word": _word, "day": day_from, "yes_no": _yes_no, "risks": _risks}


def _mapping(where: str, value) -> dict:
    if not isinstance(value, dict):
        raise ValueError(f"{where} should hold names with values, not {value!r}.")
    return value


def _known(where: str, given: dict, allowed: tuple[str, ...], needed: tuple[str, ...]) -> None:
    unknown = [key for key in given if key not in allowed]
    if unknown:
        raise ValueError(f"Not known in {where}: “{unknown[0]}”; allowed are {', '.join(allowed)}.")
    _there(where, given, needed)


def _there(where: str, given: dict, needed: tuple[str, ...]) -> None:
    missing = [key for key in needed if given.get(key) is None]
    if missing:
        raise ValueError(f"Missing in {where}: {', '.join(missing)}.")
