"""One everyday sum as a form: prefilled, answered at once, refusing in sentences."""

from collections.abc import Callable

from django import forms

from greens import units
from greens.forms.sheet import QuantityField, Sheet
from greens.queries import greens as green_queries
from growin.agronomy.impossible import ImpossibleValue
from growin.queries.sums import Answer, NoAnswer, Place

GO = "go"


class LabelField(forms.ModelChoiceField):
    """A product of the store by its newest label."""

    def label_from_instance(self, label) -> str:
        return f"{label.product} ({label.short_words})" if label.short_words else str(label.product)


class GreensField(forms.ModelMultipleChoiceField):
    """Greens with their areas, to tick."""

    widget = forms.CheckboxSelectMultiple

    def label_from_instance(self, green) -> str:
        return (
            f"{green}, {units.amount(f'{green.area_m2:g}', 'm²')}"
            if green.area_dm2
            else f"{green}, area not known"
        )


class SumSheet(Sheet):
    """One sum; ``do`` works it out from the cleaned fields, named as the arguments of ``do``."""

    do: Callable[..., Answer]

    def __init__(self, data, *, place: Place, chosen: list[str] = ()):
        asked = bool(data.get(GO))
        self.place = place
        super().__init__(data if asked else None, initial=self.first(place, chosen))
        self.offer(place)

    def first(self, place: Place, chosen: list[str]) -> dict:
        return {}

    def offer(self, place: Place) -> None:
        """Fill the choices with what is the club's."""

    def inputs(self) -> dict:
        return dict(self.cleaned_data)

    def answer(self) -> Answer | None:
        """None where nothing was asked, or not so that it can be answered; then the form says why."""
        if not self.is_valid():
            return None
        try:
            return type(self).do(self.place, **self.inputs())
        except NoAnswer as refused:
            self.add_error(refused.field, str(refused))
        except ImpossibleValue as refused:
            self.add_error(None, str(refused))
        return None


class OnGreens(SumSheet):
    """A sum over the area of some greens, or over another area typed in."""

    greens = GreensField(label="Greens", queryset=None, required=False)
    area_m2 = QuantityField(label="Or another area", unit="m²", low=0.1, high=100_000, required=False)

    def first(self, place: Place, chosen: list[str]) -> dict:
        known = [green.pk for green in green_queries.of(place.club) if green.area_dm2]
        return {"greens": [pk for pk in known if str(pk) in chosen] or known}

    def offer(self, place: Place) -> None:
        self.fields["greens"].queryset = green_queries.of(place.club)

    def clean(self):
        cleaned = super().clean()
        ticked, typed = cleaned.get("greens"), cleaned.get("area_m2")
        unmeasured = [green.name for green in ticked or () if not green.area_dm2]
        if unmeasured and typed is None:
            self.add_error(
                "greens", f"The area of {unmeasured[0]} is not known; measure it, or type an area."
            )
        elif not ticked and typed is None and not self.errors:
            self.add_error("greens", "Tick a green, or type an area.")
        return cleaned

    def inputs(self) -> dict:
        """A typed area counts instead of the greens that are ticked."""
        given = super().inputs()
        typed, ticked = given.pop("area_m2"), list(given["greens"])
        if typed is not None:
            return given | {"greens": [], "area_dm2": max(1, round(typed * 100))}
        return given | {"greens": ticked, "area_dm2": sum(green.area_dm2 for green in ticked)}
