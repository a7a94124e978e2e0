"""As of which day the readiness page speaks."""

from datetime import date

from greens.forms.sheet import DayField, Sheet


class AsOf(Sheet):
    optional_goes_without_saying = True
    on = DayField(label="As of", required=False)

    def __init__(self, today: date, *args, **kwargs):
        super().__init__(*args, initial={"on": today}, **kwargs)
        self.today = today
        self.fields["on"].latest = today

    @property
    def day(self) -> date:
        """The day asked for; today where none is, or none that can be."""
        return (self.cleaned_data["on"] if self.is_valid() else None) or self.today
