"""What stands around the work of a season: weather, states of the day, decisions, deliveries, versions of
the programme with their answers, notices, and the line that each of them left in the record of changes."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime, time, timedelta

from greens import models as kept
from greens.choices import DayStateKind, NoticeKind, StockKind
from greens.models import Establishment
from growin.actions.programme import issue_programme
from growin.models import AnswerKind, Decision, Pattern, Programme, ProgrammeStep, StepAnswer
from growin.queries.drawn import copied
from tests.bench.seasons import TODAY, YEAR, LongClub

WINTER = (11, 12, 1, 2, 3)
STATES = (DayStateKind.OPEN, DayStateKind.FROSTED, DayStateKind.OPEN, DayStateKind.WATERLOGGED)
VERSIONS_A_SEASON, STEPS_ANSWERED = 3, 40
AUTUMN, SPRING = timedelta(days=150), timedelta(days=30)
DELIVERY_G = 500_000


@contextmanager
def moments_as_said(*models):
    """Rows keep the moment they are given, where the site would write that of now."""
    fields = [one for model in models for one in model._meta.fields if getattr(one, "auto_now_add", False)]
    for one in fields:
        one.auto_now_add = False
    yield
    for one in fields:
        one.auto_now_add = True


def noon(on: date) -> datetime:
    return datetime.combine(on, time(12), UTC)


def create(model, rows) -> None:
    """Keeps the rows; where the club has one already (a day of weather), that one stands."""
    model.objects.bulk_create(rows, ignore_conflicts=True)


def around(made: LongClub) -> None:
    with moments_as_said(kept.TrailLine, kept.Notice):
        create(kept.TrailLine, changes(made))
        create(kept.Notice, notices(made))
    create(kept.WeatherDay, weather(made))
    create(kept.DayState, day_states(made))
    create(Decision, decisions(made))
    create(kept.StockLine, deliveries(made))
    create(kept.Analysis, analyses(made))
    create(kept.Setting, settings(made))
    create(kept.Advice, advice(made))


def weather(made: LongClub) -> Iterator[kept.WeatherDay]:
    for on in made.days:
        warmth = 15 - abs(on.month - 7) * 2
        figures = {"min_c": warmth - 4, "max_c": warmth + 4, "mean_c": warmth, "rain_mm": on.day % 5}
        yield kept.WeatherDay(club=made.club, on=on, **figures)


def day_states(made: LongClub) -> Iterator[kept.DayState]:
    for on in made.days:
        if on.month in WINTER:
            for turn, rebuild in enumerate(made.rebuilds):
                state = STATES[(on.day + turn) % len(STATES)]
                yield kept.DayState(green=rebuild.green, on=on, state=state, by=made.staff)


def decisions(made: LongClub) -> Iterator[Decision]:
    """Of all its seasons in their turn, since the one made last counts: each green limited in autumn and
    opened again in spring."""
    for season in reversed(range(made.seasons)):
        for rebuild in made.rebuilds:
            yield decided(made, rebuild, Pattern.LIMITED, TODAY - season * YEAR - AUTUMN)
            yield decided(made, rebuild, Pattern.FULL, TODAY - season * YEAR - SPRING)


def decided(made: LongClub, rebuild: Establishment, pattern: str, on: date) -> Decision:
    return Decision(
        establishment=rebuild, pattern=pattern, made_on=on, from_day=on, verdict="not known",
        evidence={}, digest="0" * 64, by=made.head,
    )  # fmt: skip


def deliveries(made: LongClub) -> Iterator[kept.StockLine]:
    """Each product in every third month, and counted once a season."""
    for on in made.days:
        if on.day == 1 and on.month % 3 == 0:
            kind = StockKind.COUNTED if on.month == 12 else StockKind.DELIVERED
            for label in made.labels.values():
                yield kept.StockLine(
                    product=label.product, kind=kind, on=on, amount=DELIVERY_G, unit=label.unit, by=made.head
                )


def analyses(made: LongClub) -> Iterator[kept.Analysis]:
    for rebuild in made.rebuilds:
        yield kept.Analysis(
            green=rebuild.green, by=made.head, kind="soil", on=TODAY - SPRING,
            extractant="mehlich_3", depth_mm=100, values={"K": 25, "pH": 6.4},
        )  # fmt: skip


def settings(made: LongClub) -> Iterator[kept.Setting]:
    yield kept.Setting(
        club=made.club, key="criterion.rooting_turf.depth_mm", value=50, by=made.head,
        in_force_from=TODAY - SPRING, why="Soil of the place",
    )  # fmt: skip


def advice(made: LongClub) -> Iterator[kept.Advice]:
    for rebuild in made.rebuilds:
        yield kept.Advice(green=rebuild.green, on=TODAY - SPRING, words="Hold the height.", by=made.head)


def changes(made: LongClub) -> Iterator[kept.TrailLine]:
    """A line for every entry and set there is."""
    for model, deed in ((kept.Entry, "Logged work"), (kept.ReadingSet, "Took readings")):
        rows = model.objects.filter(club=made.club).order_by("on").values_list("pk", "on")
        for pk, on in rows.iterator():
            yield kept.TrailLine(
                club=made.club, at=noon(on), by=made.staff, deed=deed, noun=model._meta.model_name, noun_pk=pk
            )


def notices(made: LongClub) -> Iterator[kept.Notice]:
    """Two a week to the head greenkeeper; those of the last month unseen."""
    for number, on in enumerate(made.days):
        if number % 7 in (0, 3):
            seen = None if TODAY - on < timedelta(days=30) else noon(on)
            yield kept.Notice(
                club=made.club, person=made.head.person, to=made.head, kind=NoticeKind.STEPS,
                key=f"work {on}", subject="Work due", text="Feed Green 1.", made_at=noon(on), seen_at=seen,
                lapsed_at=seen,
            )  # fmt: skip


# ---- programme --------------------------------------------------------------------------------------


def programmes(made: LongClub) -> None:
    """On every green the versions of a season with answers to the first steps of each season's plan; the
    newest is as the first green's is drawn today."""
    drawn = issue_programme(establishment=made.rebuilds[0], by=made.head, on=TODAY)
    rows = list(drawn.steps.all())
    newest = made.seasons * VERSIONS_A_SEASON + 1
    drawn.delete()
    numbers = range(newest - VERSIONS_A_SEASON + 1, newest + 1)
    versions = [
        version(made, rebuild, drawn, number, newest) for rebuild in made.rebuilds for number in numbers
    ]
    Programme.objects.bulk_create(versions)
    create(ProgrammeStep, (step(one, row) for one in versions for row in rows))
    create(StepAnswer, answers(made, rows))


def version(made: LongClub, rebuild: Establishment, drawn: Programme, number: int, newest: int) -> Programme:
    return Programme(
        establishment=rebuild, number=number, by=made.head,
        issued_on=TODAY - YEAR * (newest - number) / VERSIONS_A_SEASON,
        inputs=drawn.inputs, settings=drawn.settings, difference={},
    )  # fmt: skip


def step(programme: Programme, row: ProgrammeStep) -> ProgrammeStep:
    one = copied(row)
    one.programme = programme
    return one


def answers(made: LongClub, rows: list[ProgrammeStep]) -> Iterator[StepAnswer]:
    gone_by = [row for row in rows if TODAY - YEAR < row.likely < TODAY]
    for rebuild in made.rebuilds:
        for row in gone_by[-STEPS_ANSWERED:]:
            yield StepAnswer(
                establishment=rebuild, key=row.key, kind=AnswerKind.DONE, on=row.likely, by=made.head
            )
