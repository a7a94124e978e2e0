"""Sums of readings: a mean, a share, speed on a slope."""

from crispy_forms.layout import Div

from greens.forms.pasted import FiguresField
from greens.forms.sheet import QuantityField
from greens.validators.pasted import Range
from growin.forms.sum_sheet import SumSheet
from growin.queries import sums_of_readings as sums


class MeanSum(SumSheet):
    do = sums.mean
    values = FiguresField(
        label="Readings", of=Range("a reading", "", -10_000, 100_000, 3),
        help_text="All of one kind, with spaces between: 48 52 61 55",
    )  # fmt: skip
    half_width = QuantityField(
        label="Close enough is ±", low=0.001, high=10_000, decimal_places=3, required=False
    )


class ShareSum(SumSheet):
    do = sums.share
    hits = QuantityField(label="Hits", low=0, high=100_000, decimal_places=0)
    points = QuantityField(label="Of points", low=1, high=100_000, decimal_places=0)
    least_percent = QuantityField(label="Wanted at least", unit="%", low=0.1, high=99.9, required=False)
    layout = (Div("hits", "points", "least_percent", css_class="beside"),)


class SpeedSum(SumSheet):
    do = sums.speed
    uphill_m = QuantityField(label="Roll uphill", unit="m", low=0.1, high=30)
    downhill_m = QuantityField(label="Roll downhill", unit="m", low=0.1, high=30)
    layout = (Div("uphill_m", "downhill_m", css_class="beside"),)
