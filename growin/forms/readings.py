"""Taking a set of readings, and correcting one."""

import json
from collections.abc import Mapping
from datetime import date
from types import MappingProxyType
from uuid import uuid4

from crispy_forms.layout import Div, Fieldset, Layout
from django import forms

from greens.forms.photographs import PhotographsField
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Club, Membership, ReadingSet
from greens.queries import greens, people
from growin.agronomy.fields import CHOICE, NUMBER, Field
from growin.agronomy.measure import Measure
from growin.agronomy.measures import MEASURES
from growin.agronomy.reading_words import written_value
from growin.evidence.due import Asked
from growin.forms.places import PlacesField, beside
from growin.forms.set_terms import terms
from growin.forms.values import MORE_BOXES, MOST_BOXES, ValuesField

KEPT = ("on", "at_time", "taken_by", "values", "places", "note", "photographs")
TAKEN_CARE_OF = ("points_per_frame",)
NOTHING_ASKED: Mapping[int, Asked] = MappingProxyType({})


class ReadingSheet(Sheet):
    """Values in boxes, then how they were taken, when and by whom; ``stands`` is a set in its way.

    ``asked`` is what is wanted of it on each green that it may be of, by the green's id.
    """

    is_new = False
    stands: ReadingSet | None = None

    on = DayField(label="Day")
    at_time = forms.TimeField(
        label="Time", required=False, widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M")
    )
    taken_by = forms.ModelChoiceField(label="Taken by", queryset=Membership.objects.none(), empty_label=None)
    note = forms.CharField(
        label="Note", required=False, max_length=2000, widget=forms.Textarea(attrs={"rows": 2})
    )
    photographs = PhotographsField()
    client_id = forms.UUIDField(required=False, widget=forms.HiddenInput)
    values_boxes = forms.IntegerField(required=False, widget=forms.HiddenInput)
    places = PlacesField()

    def __init__(self, club: Club, measure: Measure, count: int, *args, asked=NOTHING_ASKED, **kwargs):
        super().__init__(*args, **kwargs)
        self.club, self.measure, self.asked = club, measure, asked
        self.fields["on"].latest = club.local_today()
        self.fields["taken_by"].queryset = people.workers(club)
        if not self.initial.get("taken_by"):
            self.fields["taken_by"].empty_label = "say who"
        self.fields["values"] = ValuesField(measure, self._boxes(count))
        protocol = [one for one in measure.protocol if one.key not in TAKEN_CARE_OF]
        self.fields |= {one.key: as_form_field(one) for one in protocol}
        self._lay_out([one.key for one in protocol])

    def _boxes(self, count: int) -> int:
        asked = str(self.data.get("values_boxes") or "")
        return min(max(count, int(asked) if asked.isdigit() and len(asked) < 4 else 0), MOST_BOXES)

    def _lay_out(self, protocol: list[str]) -> None:
        """The boxes are drawn by the page, before everything else."""
        how = [Fieldset("How it was taken", Div(*protocol, css_class="beside"))] if protocol else []
        when = Div("on", "at_time", "taken_by", css_class="beside")
        self.helper.layout = Layout(*how, when, "note", "photographs", "client_id", "values_boxes", "places")
        self.helper.render_unmentioned_fields = False

    def clean(self):
        found = super().clean()
        if "places" in found:
            found["places"] = beside(found["places"], self["values"].data)
        return found

    @property
    def terms(self) -> str:
        """What the keypad needs to know, as JSON."""
        return json.dumps(terms(self.measure, self.asked), ensure_ascii=False, separators=(",", ":"))

    @property
    def has_minus(self) -> bool:
        return (self.measure.low or 0) < 0

    @property
    def wants_more_boxes(self) -> bool:
        return "more" in self.data

    def with_more_boxes(self) -> "ReadingSheet":
        """The same sheet, nothing judged yet, with some boxes more."""
        named = {name: self.data.get(name) for name in self.fields if name != "values"}
        written = self["values"].data
        count = max(self.fields["values"].widget.count, len(written)) + MORE_BOXES
        named |= {"values": written, "values_boxes": count}
        more = type(self)(self.club, self.measure, count, initial=named, asked=self.asked)
        more.holds_typed = True
        return more

    def kept(self) -> dict:
        """What the action takes."""
        given = self.cleaned_data
        how = {one.key: given[one.key] for one in self.measure.protocol if one.key in given}
        how |= points_of(self.measure, given["values"])
        named = {name: given[name] for name in KEPT}
        if self.is_new:
            named["client_id"] = given["client_id"]
        return named | {"protocol": {key: value for key, value in how.items() if value not in (None, "")}}


class TakeSheet(ReadingSheet):
    """A new set; its own id lets a second tap arrive once."""

    is_new = True


class TakeOnAGreen(TakeSheet):
    """A new set whose green is chosen in the form: one sheet serves every green of the club."""

    def __init__(self, club: Club, *args, **kwargs):
        super().__init__(club, *args, **kwargs)
        self.fields["green"] = forms.ModelChoiceField(
            label="Green", queryset=greens.of(club), empty_label="choose the green"
        )
        self.fields["green"].error_messages["required"] = "Choose the green that was read."

    def kept(self) -> dict:
        return super().kept() | {"green": self.cleaned_data["green"]}


def points_of(measure: Measure, values: list) -> dict:
    """The points of a frame as protocol, where every frame had as many."""
    asks = any(one.key in TAKEN_CARE_OF for one in measure.protocol)
    points = {one["points"] for one in values} if asks else set()
    return {"points_per_frame": points.pop()} if len(points) == 1 else {}


def as_form_field(field: Field) -> forms.Field:
    """A protocol field as a box: number, choice or words."""
    shared = {"label": field.words, "required": field.required}
    if field.kind == NUMBER:
        places = 0 if field.whole else 3
        return QuantityField(unit=field.unit, low=field.low, high=field.high, decimal_places=places, **shared)
    if field.kind == CHOICE:
        return forms.ChoiceField(choices=[("", "not said"), *field.choices], **shared)
    return forms.CharField(max_length=200, **shared)


def fresh(today: date, member: Membership | None, last: ReadingSet | None) -> dict:
    """First values of a new set: today, by ``member``, if that is known, taken as the last one was."""
    how = last.protocol if last else {}
    return {**how, "on": today, "taken_by": member and member.pk, "client_id": uuid4()}


def as_written(row: ReadingSet) -> dict:
    """A kept set as a form's first values."""
    measure = MEASURES[row.measure]
    named = {name: getattr(row, name) for name in ("on", "at_time", "note", "places")}
    values = [written_value(measure, one) for one in row.values]
    if measure.shape == "hits":
        values = [{"hits": one["hits"], "points": one["points"]} for one in row.values]
    return {**row.protocol, **named, "taken_by": row.taken_by_id, "values": values}
