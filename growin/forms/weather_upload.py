"""A file of weather: the file, how its columns are read, and what is agreed before its days are kept."""

from datetime import date

from crispy_forms.layout import Div, Layout
from django import forms

from greens.forms.sheet import Sheet
from greens.queries.weather_upload import Checked
from growin.agronomy.plain_words import counted
from growin.agronomy.units import unit_named
from growin.agronomy.weather_cells import DAY_FIRST, MONTH_FIRST
from growin.agronomy.weather_columns import DAY, UNITS_OF, Column
from growin.agronomy.weather_day import WEATHER

WORDS = {DAY: "Day"} | {key: field.words for key, field in WEATHER.items()}
ORDERS = {"": "the days tell", DAY_FIRST: "day first, 16/04/2026", MONTH_FIRST: "month first, 04/16/2026"}


class UploadSheet(Sheet):
    file = forms.FileField(
        label="File of days",
        help_text="CSV or XLSX: a row of headers, then a row a day. Nothing is kept before you have seen it.",
        widget=forms.FileInput(attrs={"accept": ".csv,.txt,.xlsx"}),
        error_messages={"empty": "This file is empty; it should have a row of headers and a row a day."},
    )


class ColumnsSheet(Sheet):
    """Which column holds what, and in which unit."""

    order = forms.ChoiceField(label="Days with strokes or dots", choices=ORDERS.items(), required=False)

    def __init__(self, headers: list[str], columns: dict[str, Column], order: str, *args, **kwargs):
        super().__init__(*args, initial=as_initial(columns) | {"order": order}, **kwargs)
        choices = [("", "not in this file"), *((str(n), header) for n, header in enumerate(headers))]
        pairs = [self.add_pair(key, choices) for key in (DAY, *WEATHER)]
        self.helper.layout = Layout(*pairs[:1], "order", *pairs[1:])

    def add_pair(self, key: str, choices: list[tuple[str, str]]) -> Div:
        self.fields[key] = forms.ChoiceField(label=WORDS[key], choices=choices, required=key == DAY)
        self.fields[key].error_messages["required"] = "Say which column holds the day."
        units = [(unit, unit_named(unit).sign) for unit in UNITS_OF.get(key, ())]
        if not units:
            return Div(key, css_class="beside")
        unit = f"unit_{key}"
        self.fields[unit] = forms.ChoiceField(label=f"{WORDS[key]}: unit", choices=units, required=False)
        return Div(key, unit, css_class="beside")

    def clean(self):
        cleaned = super().clean()
        chosen: dict[str, str] = {}
        for key in WORDS:
            place = cleaned.get(key)
            if place and place in chosen:
                self.add_error(key, f"This column is read as “{chosen[place]}” already.")
            elif place:
                chosen[place] = WORDS[key]
        if DAY not in self.errors and len(chosen) < 2:
            raise forms.ValidationError("Say for at least one figure which column holds it.")
        return cleaned

    @property
    def columns(self) -> dict[str, Column]:
        places = {key: self.cleaned_data[key] for key in WORDS if self.cleaned_data.get(key)}
        return {key: Column(int(place), self.unit_of(key)) for key, place in places.items()}

    def unit_of(self, key: str) -> str:
        units = UNITS_OF.get(key, ("",))
        return self.cleaned_data.get(f"unit_{key}") or (units or ("",))[0]


def as_initial(columns: dict[str, Column]) -> dict[str, str]:
    places = {key: str(column.place) for key, column in columns.items()}
    return places | {f"unit_{key}": column.unit for key, column in columns.items()}


class UnitSheet(Sheet):
    """Asked back: in which unit the temperatures really are."""

    unit = forms.ChoiceField(
        label="The temperatures of this file are in",
        choices=[("f", "Fahrenheit"), ("c", "Celsius")],
        widget=forms.RadioSelect,
    )


class AgreeSheet(Sheet):
    """What is agreed to; whatever is to be agreed to is asked only where it arises."""

    source = forms.CharField(
        label="Where the days come from", max_length=40, help_text="Shown beside every day."
    )
    is_estimated = forms.BooleanField(
        label="Estimated, not measured here",
        required=False,
        help_text="From a model or a place far off. They count as estimates, and no measured day gives way.",
    )

    def __init__(self, checked: Checked, *args, **kwargs):
        super().__init__(*args, initial={"source": checked.upload.source}, **kwargs)
        self.checked = checked
        for name, field in asked(checked).items():
            self.fields[name] = field

    @property
    def agreed(self) -> dict:
        """As the action takes it."""
        takes_by_hand = self.cleaned_data.get("takes_by_hand", False)
        by_hand: list[date] = self.checked.by_hand_days if takes_by_hand else []
        return {
            "source": self.cleaned_data["source"],
            "is_estimated": self.cleaned_data["is_estimated"],
            "takes_different": self.cleaned_data.get("takes_different", False),
            "by_hand_days": by_hand,
        }


def asked(checked: Checked) -> dict[str, forms.BooleanField]:
    counts, wrong = checked.counts, len(checked.days.wrong)
    questions = {}
    if wrong:
        questions["leaves_out"] = must(f"Leave out {counted(wrong, 'rows')} that cannot be kept")
    if checked.days.is_out_of_order:
        questions["sorts"] = must("The days do not run in order: sort them, the days are read rightly")
    if counts["different"]:
        days = counted(counts["different"], "days")
        questions["takes_different"] = may(f"Replace the figures of {days} that were imported before")
    if counts["different_by_hand"]:
        days = counted(counts["different_by_hand"], "days")
        questions["takes_by_hand"] = may(f"Replace the figures of {days} written by hand")
    return questions


def must(label: str) -> forms.BooleanField:
    wrong = {"required": "Tick this, or put the file right and upload it again."}
    return forms.BooleanField(label=label, error_messages=wrong)


def may(label: str) -> forms.BooleanField:
    return forms.BooleanField(
        label=label, required=False, help_text="Without it these days stay as they are."
    )
