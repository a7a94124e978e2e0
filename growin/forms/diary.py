"""One piece of work as a short form: greens, particulars of its kind, products, then when and who."""

from collections.abc import Sequence
from uuid import uuid4

from django import forms

from greens.forms.photographs import PhotographsField
from greens.forms.sheet import DayField, QuantityField, Sheet
from greens.models import Club, Entry, Green, Membership
from greens.queries import greens as places
from greens.queries import people
from growin.agronomy.amounts import IN_ALL, shares_in_words
from growin.agronomy.fields import CHOICE, DATE, NUMBER, TEXT_LIMIT, TIME, YES_NO, Field
from growin.agronomy.plain_words import day
from growin.agronomy.works import Work
from growin.forms.products import as_typed, product_lines, typed
from growin.queries.log import Start
from growin.queries.standing import Standing

BESIDE = ("on", "done_by", "at_time", "minutes", "note", "photographs")
#: What else comes first, by the kind of work.
FIRST_OF_ALL = {"photograph": ("photographs",)}
NOT_SAID = ("", "not noted")
#: Choices that stand side by side as targets; more of them fold into a list.
MOST_TAPS = 8
PICKERS = {TIME: "time", DATE: "date"}


class GreenBoxes(forms.CheckboxSelectMultiple):
    """Each green carries its area, so that the page can show the other amount."""

    def create_option(self, name, value, *args, **kwargs):
        option = super().create_option(name, value, *args, **kwargs)
        option["attrs"]["data-area-dm2"] = str(value.instance.area_dm2 or "")
        return option


class WorkSheet(Sheet):
    """An entry as it is typed. What can have been is judged by the action alone."""

    asks_who = False
    products: list = []

    greens = forms.ModelMultipleChoiceField(
        label="Greens",
        queryset=Green.objects.none(),
        widget=GreenBoxes,
        error_messages={"required": "Say on which green."},
    )
    answers = forms.MultipleChoiceField(
        label="This answers", required=False, widget=forms.CheckboxSelectMultiple
    )
    on = DayField(label="Day")
    done_by = forms.ModelChoiceField(label="Done by", queryset=Membership.objects.none(), empty_label=None)
    at_time = forms.TimeField(
        label="Time", required=False, widget=forms.TimeInput(attrs={"type": "time"}, format="%H:%M")
    )
    minutes = QuantityField(label="Labour", unit="min", decimal_places=0, required=False)
    note = forms.CharField(
        label="Note", required=False, max_length=TEXT_LIMIT, widget=forms.Textarea(attrs={"rows": 2})
    )
    photographs = PhotographsField()
    client_id = forms.UUIDField(required=False, widget=forms.HiddenInput)
    seen_revision = forms.IntegerField(required=False, widget=forms.HiddenInput)

    def __init__(
        self,
        club: Club,
        work: Work,
        *posted,
        initial: dict,
        offered: Sequence[Standing] = (),
        entry: Entry | None = None,
    ):
        super().__init__(*posted, initial=initial)
        self.club, self.work, self.entry, self.offered = club, work, entry, list(offered)
        self.fields["greens"].queryset = places.of(club)
        self.fields["on"].latest = club.local_today()
        self.fields["done_by"].queryset = doers(club, entry)
        self.fields |= {field.key: as_form_field(field) for field in work.fields}
        self.leave_out_not_noted()
        self.offer(self.offered)
        self.lines = self.product_lines(*posted) if work.takes_product else None

    def ask_who_first(self) -> None:
        """For a device that several use: names as large targets at the head of the form."""
        self.asks_who, names = True, self.fields["done_by"]
        names.widget = forms.RadioSelect()
        names.widget.choices = names.choices
        names.error_messages["required"] = "Say who did it."

    def leave_out_not_noted(self) -> None:
        """ "Not noted" is only a way back: it is shown once something has been chosen."""
        untouched = [field.key for field in self.work.fields if not self.initial.get(field.key)]
        for key in untouched if not self.is_bound else ():
            if isinstance(self.fields[key].widget, forms.RadioSelect):
                self.fields[key].choices = [one for one in self.fields[key].choices if one != NOT_SAID]

    def offer(self, offered: Sequence[Standing]) -> None:
        if offered:
            self.fields["answers"].choices = [(key_of(one), words_of(one)) for one in offered]
        else:
            self.leave_out("answers")

    def product_lines(self, *posted):
        also = tuple(row.label_id for row in self.entry.products.all()) if self.entry else ()
        return product_lines(
            self.club,
            self.work.takes_product,
            *posted,
            initial=self.initial.get("products", []),
            also=also + tuple(one["label"] for one in self.initial.get("products", [])),
        )

    @property
    def shown_first(self) -> list[forms.BoundField]:
        """Particulars that a record needs; where there are none and no product either, all."""
        needed = [field for field in self.work.fields if field.required or field.wanted]
        if not needed and not self.work.takes_product:
            needed = self.work.fields
        return [self[key] for key in (*FIRST_OF_ALL.get(self.work.key, ()), *(field.key for field in needed))]

    @property
    def folded(self) -> list[forms.BoundField]:
        first = {field.name for field in self.shown_first}
        return [self[field.key] for field in self.work.fields if field.key not in first]

    @property
    def folded_open(self) -> bool:
        return any(field.errors or field.value() not in (None, "") for field in self.folded)

    @property
    def beside(self) -> list[forms.BoundField]:
        first = (*FIRST_OF_ALL.get(self.work.key, ()), *(["done_by"] if self.asks_who else []))
        return [self[name] for name in BESIDE if name not in first]

    @property
    def beside_open(self) -> bool:
        return any(field.errors for field in self.beside)

    def is_valid(self) -> bool:
        lines_hold = self.lines is None or self.lines.is_valid()
        return super().is_valid() and lines_hold and self.counts()

    def wrongs(self) -> list[tuple[str, str]]:
        """With those of the product lines."""
        lines = self.lines.forms if self.lines else ()
        loose = [("", sentence) for sentence in (self.lines.non_form_errors() if self.lines else ())]
        return [*super().wrongs(), *loose, *(one for line in lines for one in line.wrongs())]

    def counts(self) -> bool:
        """Work the amounts out over the greens' areas of that day."""
        self.products = self.lines.counted(self.area_dm2()) if self.lines else []
        return self.lines is None or not self.lines.has_wrongs

    def area_dm2(self) -> int:
        """Of the chosen greens on that day; 0 where one is not known."""
        greens = list(self.cleaned_data["greens"])
        areas = places.areas_on(greens, self.cleaned_data["on"])
        if self.entry:
            areas |= {row.green_id: row.area_dm2 for row in self.entry.lines.all() if row.area_dm2}
        known = [areas.get(green.pk) for green in greens]
        return sum(known) if all(known) else 0

    @property
    def is_asking(self) -> bool:
        """Whether it was sent to see the amounts of each green, and nothing is kept yet."""
        return "work_out" in self.data

    @property
    def shares(self) -> list[str]:
        """How much of each product goes on each green, by area; empty until it can be worked out."""
        if not self.is_bound or not self.products or len(self.cleaned_data.get("greens", ())) < 2:
            return []
        greens = list(self.cleaned_data["greens"])
        areas = places.areas_on(greens, self.cleaned_data["on"])
        each = [(green.name, areas.get(green.pk, 0)) for green in greens]
        return [f"{one.product}: {shares_in_words(amount, one.unit, each)}" for one, amount in self.products]

    def said(self) -> dict:
        """What the actions take, beside club, kind and who logs it."""
        given = self.cleaned_data
        details = {field.key: given[field.key] for field in self.work.fields}
        named = {name: given[name] for name in BESIDE}
        named["minutes"] = None if given["minutes"] is None else int(given["minutes"])
        named |= {"greens": list(given["greens"]), "details": details, "products": self.products}
        if self.entry:
            return named | {"seen_revision": given["seen_revision"]}
        return named | {"client_id": given["client_id"], "answers": self.ticked()}

    def ticked(self) -> list[tuple]:
        """Rebuild and key of each step that was ticked on a chosen green."""
        ticks, greens = set(self.cleaned_data.get("answers", [])), set(self.cleaned_data["greens"])
        return [
            (one.establishment, one.step.key)
            for one in self.offered
            if key_of(one) in ticks and one.green in greens
        ]


def doers(club: Club, entry: Entry | None):
    """Those who can have done it: the greenstaff of today, and whoever the entry names already."""
    if entry is None:
        return people.workers(club)
    named = club.memberships.filter(pk=entry.done_by_id).select_related("person")
    return (people.workers(club) | named).distinct()


def key_of(standing: Standing) -> str:
    return f"{standing.establishment.pk}:{standing.step.key}"


def words_of(standing: Standing) -> str:
    return f"{standing.green}: {standing.step.what}, planned for {day(standing.step.likely)}"


def as_form_field(field: Field) -> forms.Field:
    """A particular as a box; its limits are kept by the action, so that they stand once."""
    shared = {
        "label": field.words,
        "required": field.required,
        "error_messages": {"required": f"{field.words} is missing."},
    }
    if field.kind == NUMBER:
        return QuantityField(unit=field.unit, decimal_places=0 if field.whole else 3, **shared)
    if field.kind in (CHOICE, YES_NO):
        words = field.choices if field.kind == CHOICE else (("yes", "yes"), ("no", "no"))
        choices = list(words) if field.required else [*words, NOT_SAID]
        widget = forms.Select if len(choices) > MOST_TAPS else forms.RadioSelect
        return forms.ChoiceField(choices=choices, widget=widget, **shared)
    widget = forms.TextInput(attrs={"type": PICKERS[field.kind]}) if field.kind in PICKERS else None
    return forms.CharField(max_length=TEXT_LIMIT, widget=widget, **shared)


def fresh(start: Start, member: Membership | None) -> dict:
    """First values of a new entry: today, by ``member`` where known; copied or planned where asked."""
    first = {"on": start.on, "client_id": uuid4(), "greens": [green.pk for green in start.greens]}
    first |= {"done_by": member.pk, "operator": member.name} if member else {}
    if start.copied:
        first |= details_typed(start.copied) | {"products": as_typed(start.copied)}
        first["greens"] = first["greens"] or [line.green_id for line in start.copied.lines.all()]
    if start.answered:
        first |= planned_typed(start) | {"answers": [key_of(one) for one in start.answered]}
    return first


def planned_typed(start: Start) -> dict:
    """The planned amount as first values, where the plan says enough."""
    planned = start.planned
    if planned is None:
        return {}
    products = [
        {"label": one.label.pk, "amount": typed(one.amount, one.label), "way": IN_ALL}
        for one in planned.products
    ]
    return dict(planned.details) | {"products": products}


def as_written(entry: Entry) -> dict:
    """A kept entry as a form's first values."""
    named = {name: getattr(entry, name) for name in ("on", "done_by", "at_time", "minutes", "note")}
    greens = [line.green_id for line in entry.lines.all()]
    return {**details_typed(entry), **named, "greens": greens, "seen_revision": entry.revision}


def details_typed(entry: Entry) -> dict:
    """Details as first values: yes and no as words, figures without needless noughts."""
    typed = {True: "yes", False: "no"}
    return {
        key: typed[value] if isinstance(value, bool) else f"{value:g}" if isinstance(value, float) else value
        for key, value in entry.details.items()
    }
