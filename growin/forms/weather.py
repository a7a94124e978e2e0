"""The weather of one day, by hand."""

from datetime import date
from decimal import Decimal

from crispy_forms.layout import Div, Layout
from django import forms

from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import WeatherDay
from growin.agronomy.fields import Field
from growin.agronomy.plain_words import dated
from growin.agronomy.weather_day import WEATHER

FIRST = ("min_c", "max_c", "rain_mm", "soil_100_c")
SELDOM = tuple(key for key in WEATHER if key not in FIRST)
HELP = {"mean_c": "The middle of lowest and highest when left empty."}


class WeatherSheet(Sheet):
    optional_goes_without_saying = True
    on = DayField(label="Day")
    is_estimated = forms.BooleanField(
        label="Estimated, not measured",
        required=False,
        help_text="An estimated day never counts as a measured one.",
    )

    opened_on = forms.DateField(widget=forms.HiddenInput, required=False)

    def __init__(self, today: date, *args, known_days=None, **kwargs):
        super().__init__(*args, **kwargs)
        self.known_days = known_days
        self.fields["on"].latest = today
        self.fields |= {key: as_quantity(field) for key, field in WEATHER.items()}
        first, seldom = (Div(*keys, css_class="beside") for keys in (FIRST, SELDOM))
        self.helper.layout = Layout("opened_on", "on", first, seldom, "is_estimated")

    def clean(self):
        said = super().clean()
        on, opened_on = said.get("on"), said.pop("opened_on", None)
        if on and opened_on and on != opened_on and self.known_days(on):
            self.add_error(
                "on", f"{dated(on)} has figures of its own; open that day from the list to change them."
            )
        return said


def as_quantity(field: Field) -> QuantityField:
    return QuantityField(
        label=field.words,
        unit=field.unit,
        low=field.low,
        high=field.high,
        decimal_places=0 if field.whole else 1,
        required=False,
        help_text=HELP.get(field.key, ""),
    )


def as_written(on: date, row: WeatherDay | None) -> dict:
    """What is kept of a day as a form's first values."""
    kept = {name: getattr(row, name) for name in (*WEATHER, "is_estimated")} if row else {}
    if row and row.mean_c is not None and row.mean_c == middle_of(row):
        kept["mean_c"] = None  # it follows its extremes when they are corrected
    return {"on": on, "opened_on": on} | kept


def middle_of(row: WeatherDay) -> Decimal | None:
    """The middle of lowest and highest as the action keeps it."""
    if row.min_c is None or row.max_c is None:
        return None
    return round((Decimal(row.min_c) + Decimal(row.max_c)) / 2, 1)
