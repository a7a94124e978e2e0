"""What a member wishes to be told: how soon each kind, of which greens, when mail comes and when not."""

import calendar

from crispy_forms.layout import HTML, Div
from django import forms

from greens.choices import NoticeKind, Pace
from greens.forms.sheet import Sheet
from greens.models import Membership, Wish
from greens.models.wish import PACES
from greens.queries import greens, wish

TIMES = ("daily_at", "quiet_from", "quiet_until")


class TimeField(forms.TimeField):
    """A time on the wall, such as 06:30."""

    def __init__(self, **kwargs):
        kwargs.setdefault("widget", forms.TimeInput(attrs={"type": "time"}, format="%H:%M"))
        super().__init__(input_formats=["%H:%M", "%H:%M:%S"], **kwargs)
        self.error_messages["invalid"] = "This is not a time; write it as 06:30."


class Wishes(Sheet):
    no_mail = forms.BooleanField(
        label="No mail at all", required=False, help_text="What you are told then stands on the site only."
    )
    daily_at = TimeField(label="Mail of once a day or a week comes at")
    weekly_on = forms.TypedChoiceField(
        label="Mail of once a week comes on", coerce=int, choices=list(enumerate(calendar.day_name))
    )
    quiet_from = TimeField(label="Nothing is mailed from", required=False)
    quiet_until = TimeField(
        label="until",
        required=False,
        help_text="What comes in between is mailed at the end; leave both empty for no quiet hours.",
    )

    def __init__(self, *args, member: Membership, **kwargs):
        row = wish.of(member)
        row.member = member
        super().__init__(*args, initial=as_initial(row), **kwargs)
        self.greens = list(greens.of(member.club))
        self.kinds = [NoticeKind(kind) for kind in NoticeKind if kind in PACES[member.role]]
        for kind in self.kinds:
            self.fields[f"pace_{kind}"] = forms.ChoiceField(label=kind.label, choices=Pace.choices)
            self.initial[f"pace_{kind}"] = row.pace(kind)
        if self.greens:
            self.ask_for_greens(wish.left_out(row))
        self.helper.layout.fields = [
            HTML("<h2>How soon you are mailed</h2>"),
            *(f"pace_{kind}" for kind in self.kinds),
            *(["greens"] if self.greens else []),
            HTML("<h2>When mail comes</h2>"),
            "daily_at", "weekly_on", Div("quiet_from", "quiet_until", css_class="beside"), "no_mail",
        ]  # fmt: skip

    def ask_for_greens(self, left_out: set[int]) -> None:
        self.fields["greens"] = forms.MultipleChoiceField(
            label="You are mailed of these greens",
            required=False,
            choices=[(str(one.pk), one.name) for one in self.greens],
            widget=forms.CheckboxSelectMultiple,
            initial=[str(one.pk) for one in self.greens if one.pk not in left_out],
            help_text="A warning against opening too early reaches you whichever green it is about.",
        )

    def clean(self):
        sent = super().clean()
        self.wants_both("quiet_from", "quiet_until", "Quiet hours have a beginning and an end")
        return sent

    def wishes(self) -> dict:
        """As the action takes them."""
        sent = self.cleaned_data
        chosen = set(sent.get("greens", ()))
        return {
            "paces": {str(kind): sent[f"pace_{kind}"] for kind in self.kinds},
            "left_out": [one for one in self.greens if str(one.pk) not in chosen],
            "no_mail": sent["no_mail"],
            "weekly_on": sent["weekly_on"],
        } | {name: sent[name] for name in TIMES}


def as_initial(row: Wish) -> dict:
    """Wishes as the form first shows them."""
    times = {name: getattr(row, name) for name in TIMES}
    return times | {"weekly_on": row.weekly_on, "no_mail": row.no_mail_since is not None}
