"""The evidence as it stood when somebody signed: plain data and its digest."""

import hashlib
import json
from dataclasses import asdict
from datetime import date

from growin.agronomy.criteria import criteria_for
from growin.agronomy.forecast import Forecast, chance_words
from growin.agronomy.verdict import Finding
from growin.evidence.verdict import Judged
from growin.models import Decision

SETTINGS_SEALED = ("criterion.", "gates.", "heights.opening.")


def seal(known: Judged, told: Forecast | None, by_day: date) -> tuple[dict, str]:
    """Verdict, values, rules, settings and forecast as JSON keeps them, and the SHA-256 of that.

    The forecast ``told`` is kept with its chance by a day.
    """
    sealed = {
        "as_of": known.as_of.isoformat(),
        "verdict": known.verdict.state,
        "findings": [_finding(one) for one in known.verdict.findings],
        "values": _values(known),
        "rules": _rules(known),
        "settings": {key: one for key, one in known.settings.items() if key.startswith(SETTINGS_SEALED)},
        "forecast": told and _forecast(told, by_day),
    }
    plain = json.loads(json.dumps(sealed, default=_plain))
    return plain, digest_of(plain)


def digest_of(sealed: dict) -> str:
    """SHA-256 of sealed evidence, the same whatever order the database keeps it in."""
    text = json.dumps(sealed, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def is_untouched(decision: Decision) -> bool:
    """Whether the evidence kept with a decision still has the digest that was signed."""
    return digest_of(decision.evidence) == decision.digest


def forecast_then(decision: Decision) -> dict | None:
    """The forecast that is kept with a decision, its likely day as a day; None where there was none."""
    told = decision.evidence.get("forecast")
    return told and told | {"p50": told["p50"] and date.fromisoformat(told["p50"])}


def _forecast(told: Forecast, by_day: date) -> dict:
    return {
        "as_of": told.as_of,
        "p10": told.p10,
        "p50": told.p50,
        "p90": told.p90,
        "within_season": told.within_season,
        "holding_back": dict(told.holding_back),
        "day": by_day,
        "chance": round(told.chance_by(by_day), 4),
        "chance_words": chance_words(told.chance_by(by_day), told.histories),
    }


def _finding(one: Finding) -> dict:
    return asdict(one)


def _values(known: Judged) -> dict:
    """Every reading, height, day of weather and gate that was judged on."""
    facts = known.evidence
    return {
        "readings": [asdict(one) for one in facts.readings],
        "heights": [asdict(one) for one in facts.heights.heights],
        "opening_height_mm": facts.heights.opening_height_mm,
        "air_c": _by_day(facts.growth.air_c),
        "soil_c": _by_day(facts.growth.soil_c),
        "clippings_ml_m2": _by_day(facts.growth.clippings_ml_m2),
        "gate_on": facts.gate_on,
        "gate_words": facts.gate_words,
        "proposed_on": facts.proposed_on,
    }


def _by_day(values) -> dict[str, float]:
    return {on.isoformat(): value for on, value in values.items()}


def _rules(known: Judged) -> dict:
    """The rule that the settings made of every part of every criterion."""
    from_seed = known.evidence.from_seed
    return {
        criterion.key: {part.measure: _rule(part, known) for part in criterion.parts_for(from_seed)}
        for criterion in criteria_for(from_seed)
    }


def _rule(part, known: Judged) -> dict:
    rule = part.rule(known.settings)
    return {"kind": type(rule).__name__, **asdict(rule)}


def _plain(value):
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} has no plain form")
