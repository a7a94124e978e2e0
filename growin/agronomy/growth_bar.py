"""Whether the green is growing: any one of three signs, kept once met after the gate."""

from collections.abc import Mapping
from datetime import date, timedelta
from statistics import fmean
from typing import NamedTuple

from growin.agronomy.facts import GrowthFacts, days_before
from growin.agronomy.plain_words import amount, day, for_over_a_year
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET, Judgement

Settings = Mapping[str, float]


class Sign(NamedTuple):
    """One sign of growth: ``shown`` is None where the days or cuts are missing."""

    shown: bool | None
    words: str


def judge_growth(facts: GrowthFacts, as_of: date, gate_on: date | None, settings: Settings) -> Judgement:
    """Growth as of a day: met by the mean air, the soil or the clippings.

    Once met on or after ``gate_on`` it stays met until the mean air falls under
    ``criterion.growth.lost_under_c``. Only measured days count.
    """
    signs = signs_of_growth(facts, as_of, settings)
    shown = [one for one in signs if one.shown]
    if shown:
        return Judgement(MET, shown[0].words)
    kept_since = _kept_since(facts, as_of, gate_on, settings)
    if kept_since is not None:
        return _kept(facts, as_of, kept_since, settings)
    return _not_shown(signs, settings)


def signs_of_growth(facts: GrowthFacts, on: date, settings: Settings) -> tuple[Sign, Sign, Sign]:
    """The three signs on a day: air, soil, clippings."""
    return _air(facts, on, settings), _soil(facts, on, settings), _clippings(facts, on, settings)


def mean_air_c(facts: GrowthFacts, on: date, settings: Settings) -> float | None:
    """Mean air of the days that end with ``on``, °C; None unless every one was measured.

    A day that is not over yet has no mean: without one the days end with the day before.
    """
    days = last_days(facts.air_c, on, settings)
    if any(one not in facts.air_c for one in days):
        return None
    return fmean(facts.air_c[one] for one in days)


def last_days(measured: Mapping[date, float], on: date, settings: Settings) -> list[date]:
    """The days of a sign that end with ``on``, or with the day before while ``on`` has no figure yet."""
    last = on if on in measured else on - timedelta(days=1)
    return days_before(last, int(settings["criterion.growth.days"]))


def _air(facts: GrowthFacts, on: date, settings: Settings) -> Sign:
    days, wanted = settings["criterion.growth.days"], settings["criterion.growth.air_c"]
    mean = mean_air_c(facts, on, settings)
    if mean is None:
        measured = sum(one in facts.air_c for one in last_days(facts.air_c, on, settings))
        return Sign(None, f"Air measured on {measured} of the last {days:g} days only.")
    words = f"{days:g}-day mean air {amount(mean, '°C')}; {amount(wanted, '°C')} wanted."
    return Sign(mean >= wanted - 1e-9, words)


def _soil(facts: GrowthFacts, on: date, settings: Settings) -> Sign:
    days, wanted = settings["criterion.growth.days"], settings["criterion.growth.soil_c"]
    read = [facts.soil_c[one] for one in last_days(facts.soil_c, on, settings) if one in facts.soil_c]
    warm = sum(one >= wanted for one in read)
    words = f"Soil at 100 mm {amount(wanted, '°C')} or more on {warm} of the last {days:g} days; each wanted."
    if len(read) < days:
        return Sign(False if warm < len(read) else None, words)
    return Sign(warm == len(read), words)


def _clippings(facts: GrowthFacts, on: date, settings: Settings) -> Sign:
    wanted, of = settings["criterion.growth.cuts_at_least"], int(settings["criterion.growth.cuts_of"])
    worth = settings["criterion.growth.clippings_ml_m2"]
    since = on - timedelta(days=int(settings["criterion.growth.cuts_within_days"]))
    cuts = sorted(one for one in facts.clippings_ml_m2 if since < one <= on)[-of:]
    full = sum(facts.clippings_ml_m2[one] >= worth for one in cuts)
    words = f"Clippings worth emptying on {full} of the last {len(cuts)} cuts; {wanted:g} of {of} wanted."
    if full >= wanted:
        return Sign(True, words)
    return Sign(False if len(cuts) == of else None, words)


def _kept_since(facts: GrowthFacts, as_of: date, gate_on: date | None, settings: Settings) -> date | None:
    """The day from which growth has been kept, None when it is not kept."""
    if gate_on is None or gate_on > as_of:
        return None
    since = None
    for back in range((as_of - gate_on).days + 1):
        on = as_of - timedelta(days=back)
        if _is_shown(facts, on, settings):
            since = on
        elif _lost(facts, on, settings):
            break
    return since


def _is_shown(facts: GrowthFacts, on: date, settings: Settings) -> bool:
    return any(sign(facts, on, settings).shown for sign in (_air, _soil, _clippings))


def _lost(facts: GrowthFacts, on: date, settings: Settings) -> bool:
    mean = mean_air_c(facts, on, settings)
    return mean is not None and mean < settings["criterion.growth.lost_under_c"]


def _kept(facts: GrowthFacts, as_of: date, since: date, settings: Settings) -> Judgement:
    floor = amount(settings["criterion.growth.lost_under_c"], "°C")
    lately = days_before(as_of, int(settings["criterion.fresh_days"]))
    if all(mean_air_c(facts, on, settings) is None for on in lately):
        words = (
            f"Growth was there on {day(since, as_of)}; whether the mean air fell under {floor} is not known."
        )
        return Judgement(NOT_KNOWN, words, "Enter the air temperatures of the last days.")
    began = for_over_a_year(since, as_of) or f"since {day(since, as_of)}"
    return Judgement(MET, f"Growing {began}; the mean air has not fallen under {floor} since.")


def _not_shown(signs: tuple[Sign, ...], settings: Settings) -> Judgement:
    words = " ".join(one.words for one in signs if one.shown is False)
    if words:
        return Judgement(NOT_MET, f"{words} Any one of air, soil or clippings is enough.")
    days = f"{settings['criterion.growth.days']:g}"
    settles = (
        f"Measure the air for {days} days, the soil at 9 am for {days} days, or the clippings of the cuts."
    )
    return Judgement(NOT_KNOWN, "Whether the green is growing is not known.", settles)
