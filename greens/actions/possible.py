"""What somebody says was done, and the one judge of whether it can have been.

Form, queue, import and interface all come through :func:`judged`; it refuses only the impossible.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, time
from typing import NamedTuple

from greens.choices import ProductKind
from greens.models import Club, Establishment, Green, Label, Membership
from greens.queries import greens as places
from greens.queries.store import KINDS_FOR
from growin.agronomy.amounts import require_possible
from growin.agronomy.fields import NUMBER, TEXT, DetailError, Field, clean_fields
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.works import WORKS, Work, check_day, check_details, work_of

BESIDE = (
    Field("note", "Note", TEXT),
    Field("minutes", "Labour", NUMBER, "min", 1, 6000, whole=True),
)
BULK = {ProductKind.SAND, ProductKind.OTHER}


class Line(NamedTuple):
    """A green of an entry: the rebuild it was in, and its area, on that day."""

    green: Green
    establishment: Establishment | None
    area_dm2: int


@dataclass(frozen=True)
class Said:
    """One piece of work as told, amounts in g or ml over all greens; judging it finds its ``lines``."""

    club: Club
    kind: str
    on: date
    done_by: Membership
    greens: tuple[Green, ...]
    details: Mapping = field(default_factory=dict)
    products: tuple[tuple[Label, int], ...] = ()
    note: str = ""
    at_time: time | None = None
    minutes: int | None = None
    lines: tuple[Line, ...] = ()

    @property
    def work(self) -> Work:
        return WORKS[self.kind]

    @property
    def area_dm2(self) -> int:
        """Of all greens; 0 where one of them is not known."""
        areas = [line.area_dm2 for line in self.lines]
        return sum(areas) if all(areas) else 0

    def content(self) -> dict:
        """What makes it the same entry again, as plain data."""
        return {
            "kind": self.kind,
            "on": self.on.isoformat(),
            "at_time": self.at_time and self.at_time.isoformat(),
            "done_by": self.done_by.pk,
            "greens": sorted(green.pk for green in self.greens),
            "details": dict(self.details),
            "products": sorted([label.pk, amount] for label, amount in self.products),
            "note": self.note,
            "minutes": self.minutes,
        }


def judged(said: Said, known_areas: Mapping[int, int] | None = None) -> Said:
    """What was said, cleaned, each green with its rebuild and area of that day.

    ``known_areas`` (dm² by green) are those the entry was kept with before.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot be; keys are "kind", "on", "greens",
        "products", "done_by", "note", "minutes" and those of the details.
    """
    _collect([("kind", lambda: work_of(said.kind)), ("greens", lambda: _check_greens(said))])
    return judged_in_place(replace(said, lines=tuple(lines_of(said, known_areas or {}))))


def judged_in_place(found: Said) -> Said:
    """What was said of lines that are known, cleaned; raises as :func:`judged`."""
    _, cleaned = _collect([("on", lambda: check_days(found)), ("", lambda: cleaned_but_day(found))])
    return replace(found, **cleaned)


def cleaned_but_day(found: Said) -> dict:
    """Details, note and minutes as they are kept, whatever the day; raises as :func:`judged`."""
    beside = {"note": found.note, "minutes": found.minutes}
    _, _, details, cleaned = _collect(
        [
            ("done_by", lambda: _check_member(found.club, found.done_by)),
            ("products", lambda: _check_products(found)),
            ("details", lambda: check_details(found.kind, found.details)),
            ("note", lambda: clean_fields(BESIDE, beside)),
        ]
    )
    return {"details": details, "note": cleaned.get("note", ""), "minutes": cleaned.get("minutes")}


def _collect(checks: list[tuple[str, Callable]]) -> list:
    """Every check's answer, or all their refusals at once."""
    answers, errors = [], {}
    for name, check in checks:
        try:
            answers.append(check())
        except ImpossibleValue as refused:
            errors[name] = str(refused)
        except DetailError as refused:
            errors |= refused.errors
    if errors:
        raise DetailError(errors)
    return answers


def lines_of(said: Said, known_areas: Mapping[int, int]) -> list[Line]:
    """Each green once, with its rebuild and area of the day; two queries."""
    rebuilds = places.establishments_on(said.greens, said.on)
    areas = places.areas_on(said.greens, said.on) | dict(known_areas)
    return [
        Line(green, rebuilds.get(green.pk), areas.get(green.pk) or 0) for green in dict.fromkeys(said.greens)
    ]


def _check_greens(said: Said) -> None:
    if not said.greens:
        raise DetailError({"greens": "Say on which green."})
    for green in said.greens:
        if green.club_id != said.club.pk:
            raise DetailError({"greens": f"There is no such green at {said.club}."})


def check_days(said: Said) -> None:
    """Whether it can have been on that day; raises ImpossibleValue."""
    for line in said.lines:
        build = line.establishment
        check_day(
            said.work.words if len(said.lines) == 1 else f"{said.work.words}, {line.green}",
            said.on,
            today=said.club.local_today(),
            needs_turf=said.work.needs_turf and build is not None,
            established_on=build and build.established_on,
            building_from=build and build.works_started_on,
        )


def _check_member(club: Club, member: Membership) -> None:
    if member.club_id != club.pk:
        raise DetailError({"done_by": f"Nobody of that name belongs to {club}."})


def _check_products(said: Said) -> None:
    labels = [label for label, _ in said.products]
    if labels and not said.work.takes_product:
        raise DetailError({"products": f"“{said.work.words}” carries no product."})
    for label, amount in said.products:
        _check_product(said, label, amount)
        if labels.count(label) > 1:
            raise DetailError({"products": f"{label.product} stands in two lines; write it in one."})


def _check_product(said: Said, label: Label, amount: int) -> None:
    product = label.product
    if product.club_id != said.club.pk:
        raise DetailError({"products": f"There is no such product in the store of {said.club}."})
    if product.kind not in KINDS_FOR[said.work.takes_product]:
        kind = product.get_kind_display().lower()
        raise DetailError({"products": f"{product} is kept as {kind}: not for “{said.work.words}”."})
    require_possible(str(product), amount, said.area_dm2, is_bulk=product.kind in BULK)
