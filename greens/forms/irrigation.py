"""The watering system."""

from datetime import date

from greens.forms.sheet import DayField, QuantityField, Sheet


class IrrigationForm(Sheet):
    optional_goes_without_saying = True
    live_on = DayField(label="Live since", required=False)
    audited_on = DayField(
        label="Heads audited on", required=False, help_text="Each head run and its throw looked at."
    )
    heads = QuantityField(label="Number of heads", low=0, high=200, decimal_places=0, required=False)
    hose_ready_on = DayField(label="Hose at the green since", required=False)

    def __init__(self, *args, today: date, **kwargs):
        super().__init__(*args, **kwargs)
        for name in ("live_on", "audited_on", "hose_ready_on"):
            self.fields[name].latest = today
