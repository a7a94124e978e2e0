"""Heights of cut: planned rung by rung, and as the diary has them."""

from dataclasses import dataclass
from datetime import date

from greens.models import EntryGreen, Establishment
from greens.queries.spans import within
from growin.agronomy import plain_words
from growin.agronomy.programme.done import days_that_tell
from growin.queries import programme
from growin.queries.remembered import kept_while_the_frame_stands, kept_while_unchanged


@dataclass(frozen=True)
class Rung:
    """A planned height with its days."""

    height_mm: float
    earliest: date
    likely: date
    latest: date
    what: str


@dataclass(frozen=True)
class Cut:
    """A cut that was made, at its bench height."""

    on: date
    height_mm: float


@dataclass(frozen=True)
class Ladder:
    """Rungs planned, cuts made, and gates between them as (day, words)."""

    rungs: tuple[Rung, ...] = ()
    cuts: tuple[Cut, ...] = ()
    gates: tuple[tuple[date, str], ...] = ()

    def __bool__(self) -> bool:
        return bool(self.rungs or self.cuts)

    @property
    def in_words(self) -> str:
        """What the picture shows, for those who cannot see it."""
        said = [
            self._planned(),
            self._cut(),
            *(f"{words}: {plain_words.day(on)}." for on, words in self.gates),
        ]
        return "Heights of cut. " + " ".join(one for one in said if one)

    @property
    def last_cuts(self) -> tuple[Cut, ...]:
        """The newest twenty, newest first."""
        return self.cuts[:-21:-1]

    def _planned(self) -> str:
        if not self.rungs:
            return ""
        first, last = self.rungs[0], self.rungs[-1]
        low = min(self.rungs, key=lambda rung: rung.height_mm)
        said = f"Planned from {first.height_mm:g} mm on {plain_words.day(first.likely)}"
        said += f" down to {low.height_mm:g} mm on {plain_words.day(low.likely, first.likely)}"
        if low is last:
            return f"{said}."
        return f"{said}, and up and down with the winters to {plain_words.dated(last.likely)}."

    def _cut(self) -> str:
        if not self.cuts:
            return "No cut is logged yet."
        last = self.cuts[-1]
        return f"Last cut at {last.height_mm:g} mm on {plain_words.day(last.on)}."


@kept_while_unchanged
def ladder(establishment: Establishment) -> Ladder:
    """Planned and cut, since laying or sowing; three queries."""
    rungs, gates = planned(establishment)
    return Ladder(rungs, cuts(establishment), gates)


@kept_while_the_frame_stands
def planned(establishment: Establishment) -> tuple[tuple[Rung, ...], tuple[tuple[date, str], ...]]:
    """The heights of the programme in force, and what each waits for."""
    rows = [row for row in programme.cuts_planned(establishment) if row.amount]
    rungs = tuple(Rung(row.amount, row.earliest, row.likely, row.latest, row.what) for row in rows)
    return rungs, tuple((row.likely, row.what) for row in programme.gates(establishment))


def cuts(establishment: Establishment) -> tuple[Cut, ...]:
    """Cuts of the diary that name their height, oldest first: while it grew in, and of the last year."""
    on = establishment.green.club.local_today()
    lines = EntryGreen.objects.filter(
        within("on", days_that_tell(establishment.established_on, on)),
        establishment=establishment,
        kind="cut",
        entry__taken_back_at=None,
    )
    found = lines.order_by("on", "entry_id").values_list("on", "entry__details")
    heights = ((on, details.get("height_mm")) for on, details in found)
    return tuple(Cut(on, float(height)) for on, height in heights if height)
