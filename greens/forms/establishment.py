"""The rebuild: when, what with, and where it is heading."""

from datetime import date, timedelta

from django import forms

from greens import units
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Establishment
from growin.agronomy.plain_words import dated
from growin.agronomy.species import ESTABLISHMENTS, SPECIES

HEIGHT = {"unit": "mm", "low": 2, "high": 15, "decimal_places": 2, "required": False}


class EstablishmentForm(Sheet):
    """``before`` and ``after`` are the green's neighbouring rebuilds: works do not run into them.

    By ``grown_on``, the first day of work or readings on the turf, it was laid or sown.
    """

    works_started_on = DayField(label="Works started on", help_text="The first day of digging or lifting.")
    kind = forms.ChoiceField(label="Established with", widget=forms.RadioSelect)
    species = forms.ChoiceField(
        label="Grass", choices=[(key, one.words) for key, one in SPECIES.items()], widget=forms.RadioSelect
    )
    established_on = DayField(
        label="Laid or sown on", required=False, help_text="Leave empty while it is still being built."
    )
    summer_height_mm = QuantityField(
        label="Summer height of cut", **HEIGHT, help_text="Empty takes the usual height of the grass."
    )
    others_height_mm = QuantityField(label="The club's other greens are cut now at", **HEIGHT)
    seed_rate_g_m2 = QuantityField(
        label="Seed rate", unit="g/m²", low=1, high=100, decimal_places=2, required=False,
        help_text="Only where it was sown.",
    )  # fmt: skip
    maintenance_ends_on = DayField(
        label="The contractor's maintenance ends on", required=False, help_text="As the contract says."
    )

    def __init__(
        self,
        *args,
        today: date,
        before: Establishment | None,
        after: Establishment | None,
        grown_on: date | None = None,
        **kwargs,
    ):
        super().__init__(*args, **kwargs)
        self.fields["kind"].choices = [
            (key, units.in_trade_words(one.words)) for key, one in ESTABLISHMENTS.items()
        ]
        self.after, self.grown_on = after, grown_on
        works = self.fields["works_started_on"]
        works.latest = self.fields["established_on"].latest = today
        works.earliest = first_day_after(before)

    def clean(self):
        found = super().clean()
        works, laid, ends = (
            found.get(name) for name in ("works_started_on", "established_on", "maintenance_ends_on")
        )
        self.check_order("established_on", works, laid)
        self.check_order("maintenance_ends_on", laid or works, ends)
        self.check_next(works, laid)
        self.check_grown(laid)
        self.check_seed(found)
        return found

    def check_order(self, name: str, first: date | None, then: date | None) -> None:
        if first and then and then < first:
            self.add_error(name, f"{dated(then)} lies before {dated(first)}; it should come after.")

    def check_grown(self, laid: date | None) -> None:
        if self.grown_on and "established_on" not in self.errors and (laid is None or laid > self.grown_on):
            self.add_error(
                "established_on",
                f"Cuts or readings are logged from {dated(self.grown_on)}; it was laid or sown by then.",
            )

    def check_next(self, works: date | None, laid: date | None) -> None:
        last = laid or works
        if self.after and last and last >= self.after.works_started_on:
            begun = self.after.works_started_on
            self.add_error(
                "established_on" if laid else "works_started_on",
                f"The next rebuild of this green began on {dated(begun)}; this one lies before it.",
            )

    def check_seed(self, found: dict) -> None:
        kind = found.get("kind")
        if kind and ESTABLISHMENTS[kind].is_turf and found.get("seed_rate_g_m2") is not None:
            self.add_error("seed_rate_g_m2", "Turf has no seed rate; leave it empty, or choose seed above.")


def first_day_after(before: Establishment | None) -> date | None:
    """The day after the rebuild before was laid, or its works began."""
    return before and (before.established_on or before.works_started_on) + timedelta(days=1)
