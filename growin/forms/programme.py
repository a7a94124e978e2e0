"""Changing a programme by hand, and answering its steps."""

from datetime import timedelta

from crispy_forms.layout import Div
from django import forms

from greens import units
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Entry, Green
from greens.queries import diary
from growin.agronomy.plain_words import day as day_words
from growin.agronomy.programme import INSPECTION
from growin.agronomy.works import WORKS
from growin.models import ProgrammeStep
from growin.models.programme import STEP_WORDS
from growin.queries.standing import ASKED_FOR

#: Kinds of step that a head greenkeeper may add: any work but those that only record what happened.
ADDED = [key for key in WORKS if key not in {"not_done", "defect", "spray", "build_work"}] + [INSPECTION]
UNITS = ("kg N/ha", "kg P/ha", "kg/m²", "mm", "l/ha", "passes", "%")
WEATHER, OTHER = "weather", "other"
REASONS = [
    ("wet", "Too wet"),
    ("frost", "Frost"),
    ("heat", "Heat or drought"),
    ("wind", "Wind"),
    (OTHER, "Another reason"),
]
#: An entry may answer a step that it was done so long before (our judgement).
BEFORE = timedelta(days=28)
TEXT = forms.Textarea(attrs={"rows": 3})


class Meant(Sheet):
    """A plan that may be asked about; the question is ticked once it is meant."""

    is_meant = forms.BooleanField(label="It is meant so", required=False, widget=forms.HiddenInput)

    def ask(self, sentences) -> None:
        """Show what is doubtful, and the tick that answers it."""
        self.fields["is_meant"].widget = forms.CheckboxInput()
        for sentence in sentences:
            self.add_error(None, sentence)
        self.add_error("is_meant", "Tick this if it is meant so, and say why above.")


class ChangeStep(Meant):
    likely = DayField(label="Planned day")
    amount = QuantityField(label="Amount", low=0, high=1000, decimal_places=2, required=False)
    what = forms.CharField(label="What", max_length=200)
    how = forms.CharField(label="How", max_length=600, required=False, widget=TEXT)
    why = forms.CharField(label="Why it is changed", max_length=300, widget=forms.TextInput())
    field_order = ["likely", "amount", "what", "how", "why", "is_meant"]

    def __init__(self, step: ProgrammeStep, *args, **kwargs):
        kept = {name: getattr(step, name) for name in ("likely", "amount", "what", "how")}
        super().__init__(*args, initial=kept, **kwargs)
        if step.unit:
            self.fields["amount"].stored_unit = step.unit
        else:
            self.leave_out("amount")

    def values(self) -> dict:
        """As the action takes them, the amount a plain number."""
        said = dict(self.cleaned_data)
        if said.get("amount") is not None:
            said["amount"] = float(said["amount"])
        return said


class AddStep(Meant):
    kind = forms.ChoiceField(
        label="Kind", choices=[("", "choose"), *((key, STEP_WORDS[key]) for key in ADDED)]
    )
    likely = DayField(label="Planned day")
    what = forms.CharField(label="What", max_length=200)
    amount = QuantityField(label="Amount", low=0, high=1000, decimal_places=2, required=False)
    unit = forms.ChoiceField(label="Unit", required=False)
    how = forms.CharField(label="How", max_length=600, required=False, widget=TEXT)
    why = forms.CharField(label="Why", max_length=300)
    layout = ("kind", "likely", "what", Div("amount", "unit", css_class="beside"), "how", "why", "is_meant")

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["unit"].choices = [("", "none"), *((one, units.sign(one)) for one in UNITS)]

    def clean(self):
        said = super().clean()
        if said.get("amount") is not None and not said.get("unit"):
            self.add_error("unit", "Choose the unit of the amount.")
        return said

    def values(self) -> dict:
        said = dict(self.cleaned_data)
        amount = said.pop("amount")
        return said | {"amount": None if amount is None else float(units.stored(amount, said["unit"], 3))}


class Tick(Sheet):
    """Done: on which day, which entry of the diary it was, and what was different."""

    on = DayField(label="Done on")
    entry = forms.ModelChoiceField(
        label="Entry in the diary", queryset=Entry.objects.none(), required=False, empty_label="none"
    )
    differs = forms.CharField(label="What was done differently", max_length=300, required=False)

    def __init__(self, step: ProgrammeStep, green: Green, today, *args, **kwargs):
        super().__init__(*args, initial={"on": today}, **kwargs)
        self.fields["on"].latest = today
        self.fields["entry"].queryset = diary.of(green.club).filter(
            kind=step.kind,
            lines__green=green,
            on__range=(step.earliest - BEFORE, min(step.latest + ASKED_FOR, today)),
        )
        if step.kind not in WORKS:
            self.leave_out("entry")

    def values(self, today) -> dict:
        return self.cleaned_data


class NotDone(Sheet):
    """Why: one word of weather, or a sentence."""

    reason = forms.ChoiceField(label="Why not", choices=REASONS, widget=forms.RadioSelect)
    words = forms.CharField(label="In a few words", max_length=150, required=False)

    def clean(self):
        said = super().clean()
        if said.get("reason") == OTHER and not said.get("words"):
            self.add_error("words", "Say the reason in a few words.")
        return said

    def values(self, today) -> dict:
        """The reason as it is kept: "weather: frost, white until noon"."""
        reason, words = self.cleaned_data["reason"], self.cleaned_data["words"]
        weather = f"weather: {dict(REASONS)[reason].lower()}" + (f", {words}" if words else "")
        return {"on": today, "reason": words if reason == OTHER else weather}


class PutOff(Sheet):
    until = DayField(label="Ask again on")
    reason = forms.CharField(label="Because", max_length=200, required=False)

    def __init__(self, today, *args, **kwargs):
        super().__init__(*args, initial={"until": today + timedelta(days=3)}, **kwargs)
        self.fields["until"].earliest = today + timedelta(days=1)
        self.fields["until"].help_text = f"{day_words(today + timedelta(days=3))} unless you say otherwise."

    def values(self, today) -> dict:
        return self.cleaned_data | {"on": today}


class Filter(Sheet):
    optional_goes_without_saying = True
    """Steps of one kind."""

    kind = forms.ChoiceField(label="Show", required=False)

    def __init__(self, kinds: list[str], *args, **kwargs):
        super().__init__(*args, **kwargs)
        words = sorted((STEP_WORDS.get(kind, kind), kind) for kind in kinds)
        self.fields["kind"].choices = [("", "every step"), *((kind, word) for word, kind in words)]

    def chosen(self) -> str:
        """The kind asked for; every kind where the address names none that there is."""
        return self.cleaned_data["kind"] if self.is_valid() else ""
