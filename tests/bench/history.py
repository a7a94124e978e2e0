"""A season of work and readings, as short or as long as a measurement wants it."""

from datetime import date, timedelta

from greens import models as kept
from greens.choices import DayStateKind
from greens.models import Establishment, Label, Membership
from growin.agronomy.measures import MEASURES, SHAPE_HITS, SHAPE_NUMBER, SHAPE_ROLLS, Measure
from growin.models import AnswerKind, Decision, Pattern, ProgrammeStep, StepAnswer

DETAILS = {
    "cut": {"height_mm": 6.0},
    "roll": {"passes": 1},
    "feed": {"form": "granular"},
    "dressing": {"worked_in": "brush"},
    "aerate": {"kind": "solid"},
    "walk": {},
    "note": {"text": "Dew until ten, firm underfoot."},
}
OVERRIDDEN = "criterion.rooting_turf.depth_mm"
ROLLS = {"first": [2.1, 2.2, 2.1], "second": [2.0, 2.1, 2.2]}


def lengthen(by: Membership, establishment: Establishment, label: Label, upto: date, days: int) -> None:
    """``days`` more days of diary, readings, weather, advice and changes, the last on ``upto``."""
    first = upto - timedelta(days=days)
    for number in range(1, days + 1):
        on = first + timedelta(days=number)
        diary(by, establishment, label, on, number)
        readings(by, establishment, on, number)
        around(by, establishment, on, number)
    answers(by, establishment, upto, days // 4)


def diary(by: Membership, establishment: Establishment, label: Label, on: date, number: int) -> None:
    kinds = list(DETAILS)
    for kind in (kinds[number % len(kinds)], kinds[(number + 3) % len(kinds)]):
        entry = kept.Entry.objects.create(
            club=by.club, kind=kind, on=on, done_by=by, logged_by=by, details=DETAILS[kind]
        )
        green = establishment.green
        kept.EntryGreen.objects.create(
            entry=entry,
            green=green,
            establishment=establishment,
            kind=kind,
            on=on,
            area_dm2=green.area_dm2,
        )
        if kind == "feed":
            line = kept.EntryProduct.objects.create(entry=entry, label=label, amount=5_625)
            kept.EntryNutrient.objects.create(product=line, element="N", mg_m2=1_000)


def readings(by: Membership, establishment: Establishment, on: date, number: int) -> None:
    """Every fourth day a round of seven or eight measures; in twenty days each had its turn."""
    if number % 4 == 0:
        turn = list(MEASURES.values())[number // 4 % 5 :: 5]
        kept.ReadingSet.objects.bulk_create(reading_set(by, establishment, on, measure) for measure in turn)


def reading_set(by: Membership, establishment: Establishment, on: date, measure: Measure) -> kept.ReadingSet:
    return kept.ReadingSet(
        club=by.club,
        green=establishment.green,
        establishment=establishment,
        measure=measure.key,
        on=on,
        taken_by=by,
        logged_by=by,
        values=[value_of(measure)] * 5,
    )


def value_of(measure: Measure):
    """A value that can be, a fifth of the way from the lowest to the highest."""
    if measure.shape == SHAPE_NUMBER:
        value = measure.low + (measure.high - measure.low) / 5
        return round(value) if measure.whole else value
    return {SHAPE_HITS: {"hits": 88, "points": 100}, SHAPE_ROLLS: ROLLS}.get(measure.shape, True)


def around(by: Membership, establishment: Establishment, on: date, number: int) -> None:
    """What stands beside the work: weather, the state of the day, advice, a setting, a decision, a change."""
    club, green = by.club, establishment.green
    kept.WeatherDay.objects.get_or_create(
        club=club, on=on, defaults={"min_c": 4, "max_c": 12, "mean_c": 8, "rain_mm": 2}
    )
    kept.DayState.objects.get_or_create(green=green, on=on, defaults={"state": DayStateKind.RESTED, "by": by})
    kept.TrailLine.objects.create(club=club, by=by, deed="Logged work", noun="entry", green=green)
    if number % 24 == 0:
        kept.Advice.objects.create(green=green, on=on, words="Hold the height.", by=by)
        kept.Setting.objects.create(
            club=club, key=OVERRIDDEN, value=50, in_force_from=on, by=by, why="Soil of the place"
        )
        decided(by, establishment, on)


def decided(by: Membership, establishment: Establishment, on: date) -> None:
    Decision.objects.create(
        establishment=establishment,
        pattern=Pattern.CLOSED,
        made_on=on,
        from_day=on,
        verdict="not met",
        evidence={},
        digest="0" * 64,
        by=by,
    )


def answers(by: Membership, establishment: Establishment, on: date, count: int) -> None:
    """The first steps of the programme in force are answered."""
    steps = ProgrammeStep.objects.filter(programme__establishment=establishment).order_by("likely")
    keys = list(dict.fromkeys(steps.values_list("key", flat=True)))[:count]
    for key in keys:
        StepAnswer.objects.get_or_create(
            establishment=establishment, key=key, defaults={"kind": AnswerKind.DONE, "on": on, "by": by}
        )
