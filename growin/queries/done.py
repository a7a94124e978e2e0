"""What was done and found on a green up to a day, as its programme goes on from it."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from operator import itemgetter
from typing import NamedTuple

from django.db.models import Q, Sum

from greens.models import EntryGreen, Establishment
from greens.queries import nutrients, readings, sands
from greens.queries.spans import Span, within
from growin.agronomy.criteria import CRITERIA
from growin.agronomy.facts import ReadingFacts
from growin.agronomy.nutrition import MG_M2_PER_KG_HA
from growin.agronomy.programme.done import Done, cover_seen, days_that_tell, held_on, rooted_on, sooner
from growin.models import AnswerKind
from growin.queries import decision as decisions
from growin.queries import programme

FOLLOWED = ("feed", "dressing", "roll", "hand_water", "cut")


def done_of(establishment: Establishment, on: date, settings: dict) -> Done:
    """Answers, diary, readings and decisions of one rebuild up to a day; seven queries."""
    done = work_of([establishment], on)[establishment.pk]
    rows = readings.until([establishment], on, measures=measures_of(establishment))
    read = [ReadingFacts(row.measure, row.on, tuple(row.values)) for row in rows]
    up, covers, bare = cover_seen(read)
    first_cut = done.cuts[0][0] if done.cuts else None
    return replace(
        done,
        feeds=_feeds(establishment, on),
        dressings=_dressings(establishment, on),
        knitted_on=sooner(first_cut, held_on(read)) if establishment.is_turf else None,
        emerged_on=None if establishment.is_turf else sooner(first_cut, up),
        rooted_on=rooted_on(read, not establishment.is_turf, settings),
        covered_on=covers,
        not_covered_on=bare,
        opened_on=decisions.open_since(decisions.of_rebuild(establishment, on), on),
    )


def work_of(establishments: Iterable[Establishment], on: date) -> dict[int, Done]:
    """What was answered and logged on rebuilds up to a day, by their ids; two queries for all of them."""
    rebuilds = list(establishments)
    answers, logged = defaultdict(list), defaultdict(list)
    for row in programme.settled(rebuilds, answered=_lately(rebuilds, on)):
        answers[row.establishment_id].append(row)
    for row in _logged(rebuilds, on):
        logged[row.establishment_id].append(row)
    return {one.pk: _work(answers[one.pk], logged[one.pk], on) for one in rebuilds}


class Logged(NamedTuple):
    """One entry of the diary on one rebuild, with the height of a cut."""

    establishment_id: int
    kind: str
    on: date
    height_mm: float | None


def measures_of(establishment: Establishment) -> set[str]:
    """What says how far a green has come: pulls, cover, and the readings of its rooting criterion."""
    from_seed = not establishment.is_turf
    rooting = CRITERIA["rooting_seed" if from_seed else "rooting_turf"]
    return {"hand_pull", "cover", *(part.measure for part in rooting.parts_for(from_seed))}


def _logged(establishments: Iterable[Establishment], on: date) -> list[Logged]:
    """Work of the time that still tells, oldest first."""
    parts = [
        EntryGreen.objects.filter(
            establishment__in=pks, kind__in=FOLLOWED, on__range=span, entry__taken_back_at=None
        ).order_by()
        for laid, pks in _laid_alike(establishments).items()
        for span in days_that_tell(laid, on)
    ]
    columns = ("establishment_id", "kind", "on", "entry__details__height_mm", "entry_id")
    found = [one.values_list(*columns) for one in parts]
    rows = found[0].union(*found[1:], all=True) if found else ()
    return [Logged(*row[:-1]) for row in sorted(rows, key=itemgetter(2, 4))]


def _lately(establishments: Iterable[Establishment], on: date) -> Q:
    """Answers of the time that still tells."""
    told = [
        Q(establishment__in=pks) & within("on", days_that_tell(laid, on))
        for laid, pks in _laid_alike(establishments).items()
    ]
    return Q(*told, _connector=Q.OR)


def _laid_alike(establishments: Iterable[Establishment]) -> dict[date | None, list[int]]:
    """Rebuilds, by their ids, of each day of laying: the same days tell for them."""
    alike: dict[date | None, list[int]] = defaultdict(list)
    for one in establishments:
        alike[one.established_on].append(one.pk)
    return alike


def _work(answers: Iterable[programme.Settled], logged: Iterable[Logged], on: date) -> Done:
    answered = {row.key: row.on for row in answers if row.kind == AnswerKind.DONE and row.on <= on}
    return Done(
        as_of=on,
        steps=answered,
        passed=frozenset(row.key for row in answers if row.kind == AnswerKind.NOT_DONE),
        last={row.kind: row.on for row in logged if row.kind != "cut"},
        cuts=_cuts(logged, answered),
    )


def _cuts(logged: Iterable[Logged], answered: dict[str, date]) -> tuple[tuple[date, float], ...]:
    """Cuts of the diary, and heights that were ticked without an entry, oldest first."""
    heights = [(row.on, float(row.height_mm)) for row in logged if row.kind == "cut" and row.height_mm]
    ticked = [(on, height) for key, on in answered.items() if (height := _height_of(key))]
    known = {on for on, _ in heights}
    return tuple(sorted([*heights, *(one for one in ticked if one[0] not in known)]))


def _height_of(key: str) -> float | None:
    """The height that stands in the key of a rung: "cut-ladder-7.0"."""
    word = key.rpartition("-")[2]
    return float(word) if key.startswith("cut-") and word.replace(".", "", 1).isdigit() else None


def since_laying(establishment: Establishment, on: date) -> list[Span]:
    """The same, but nothing from before the green was laid or sown."""
    laid = establishment.established_on or on
    return [(max(first, laid), last) for first, last in days_that_tell(laid, on)]


def _feeds(establishment: Establishment, on: date) -> tuple[tuple[date, float], ...]:
    """Nitrogen as given, kg/ha by day."""
    rows = nutrients.ledger("N").filter(
        within("product__entry__lines__on", since_laying(establishment, on)),
        product__entry__lines__establishment=establishment,
        product__entry__lines__kind="feed",
    )
    by_day = rows.values_list("product__entry__lines__on").annotate(total=Sum("mg_m2"))
    return tuple(
        (day, total / MG_M2_PER_KG_HA) for day, total in by_day.order_by("product__entry__lines__on")
    )


def _dressings(establishment: Establishment, on: date) -> tuple[tuple[date, float], ...]:
    """Sand as given, kg/m² by entry, over the areas as they were."""
    green = establishment.green
    given = sands.dressings([green], *since_laying(establishment, on)).get(green.pk, ())
    return tuple((one.on, one.kg_m2) for one in given if one.kind == "dressing")
