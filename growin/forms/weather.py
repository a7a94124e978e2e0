"""The weather of one day, by hand."""

from datetime import date

from crispy_forms.layout import Div, Layout
from django import forms

from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import WeatherDay
from growin.agronomy.fields import Field
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

    def __init__(self, today: date, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["on"].latest = today
        self.fields |= {key: as_quantity(field) for key, field in WEATHER.items()}
        first, seldom = (Div(*keys, css_class="beside") for keys in (FIRST, SELDOM))
        self.helper.layout = Layout("on", first, seldom, "is_estimated")


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
    return {"on": on} | kept
