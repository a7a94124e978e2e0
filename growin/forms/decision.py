"""What a committee decides about play, and closing at once."""

from datetime import date

from crispy_forms.layout import Div, Layout
from django import forms

from greens.forms.sheet import DayField, Sheet
from growin.agronomy.in_play import STOP_RULE
from growin.models import Pattern, Proposal

WHAT_PATTERNS_MEAN = (
    "Alternate days for the first two to three weeks is usual; limited play means no competitions, "
    "no trolleys and few rounds."
)
AREA = forms.Textarea(attrs={"rows": 3})


class DecisionSheet(Sheet):
    optional_goes_without_saying = True  # what may be left out hangs on the verdict; the help says so
    pattern = forms.ChoiceField(
        label="Pattern of play",
        choices=Pattern.choices,
        widget=forms.RadioSelect,
        help_text=WHAT_PATTERNS_MEAN,
    )
    from_day = DayField(label="From")
    stop_rule = forms.CharField(
        label="Stop rule",
        max_length=500,
        required=False,
        widget=AREA,
        help_text="What closes the green again without a meeting; only a closure needs none.",
    )
    meeting_on = DayField(label="Decided at the meeting of")
    present = forms.CharField(label="Those present", max_length=400, widget=forms.Textarea(attrs={"rows": 2}))
    reason = forms.CharField(
        label="Reason",
        max_length=1000,
        required=False,
        widget=AREA,
        help_text="Needed when the green is opened against the verdict; it stays with the decision.",
    )

    def __init__(self, today: date, *args, proposal: Proposal | None = None, **kwargs):
        initial = {"from_day": today, "meeting_on": today, "stop_rule": STOP_RULE}
        if proposal:
            initial |= {"from_day": proposal.opening_on, "pattern": proposal.pattern}
        super().__init__(*args, initial=initial, **kwargs)
        self.fields["meeting_on"].latest = today
        days = Div("from_day", "meeting_on", css_class="beside")
        self.helper.layout = Layout("pattern", days, "present", "stop_rule", "reason")


class CloseSheet(Sheet):
    reason = forms.CharField(label="Why is it closed?", max_length=1000, widget=AREA)
