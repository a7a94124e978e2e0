"""Accepting a new drawing of a programme."""

from django import forms

from greens.forms.sheet import Sheet
from growin.queries.redraw import LONGEST_WHY, Redraw


class Accept(Sheet):
    """``mark`` holds the accepted drawing to the one that was shown."""

    why = forms.CharField(
        label="Why it is drawn again",
        max_length=LONGEST_WHY,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
        help_text="Stands with the new version; the reasons above are filled in.",
    )
    mark = forms.CharField(widget=forms.HiddenInput)

    def __init__(self, shown: Redraw, *args, **kwargs):
        super().__init__(*args, initial={"why": shown.why, "mark": shown.mark}, **kwargs)
        self.shown = shown

    @property
    def is_of_what_was_shown(self) -> bool:
        return self.is_valid() and self.cleaned_data["mark"] == self.shown.mark
