"""The diary: work that was done, on which greens, with what."""

from typing import NamedTuple
from uuid import uuid4

from django.db import models

from growin.agronomy import amounts
from growin.agronomy.label import ELEMENTS
from growin.agronomy.plain_words import amount, dated
from growin.agronomy.works import WORKS, Work


class Nutrient(NamedTuple):
    """What an entry brought of one element: mg on each m², kg/ha, kg over all its greens."""

    element: str
    mg_m2: int
    kg_ha: float
    kg: float

    @property
    def words(self) -> str:
        """Rate and sum in one phrase: "N 6 kg/ha (0.27 kg)"."""
        return f"{self.element} {amount(self.kg_ha, 'kg/ha', 2)} ({amount(self.kg, 'kg', 3)})"


class Entry(models.Model):
    """One piece of work on one local day.

    The row always holds what counts now; earlier readings of it stand in its revisions.
    ``details`` are the fields of its kind in :mod:`growin.agronomy.works`;
    ``over_limit`` the sentences that were true of it when it was kept.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="entries")
    kind = models.CharField(max_length=20, choices=[(key, work.words) for key, work in WORKS.items()])
    on = models.DateField()
    at_time = models.TimeField(null=True, blank=True)
    done_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    logged_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    logged_at = models.DateTimeField(auto_now_add=True)
    client_id = models.UUIDField(default=uuid4)
    details = models.JSONField(default=dict, blank=True)
    note = models.CharField(max_length=2000, blank=True)
    minutes = models.PositiveSmallIntegerField("labour, minutes", null=True, blank=True)
    over_limit = models.JSONField(default=list, blank=True)
    revision = models.PositiveSmallIntegerField(default=1)
    taken_back_at = models.DateTimeField(null=True, blank=True)
    taken_back_by = models.ForeignKey(
        "greens.Membership", models.PROTECT, null=True, blank=True, related_name="+"
    )

    book = models.ForeignKey("greens.Book", models.SET_NULL, null=True, blank=True, related_name="entries")

    class Meta:
        ordering = ["-on", "-pk"]
        indexes = [
            models.Index(fields=["club", "-on"]),
            models.Index(fields=["club", "kind", "-on"]),
            models.Index(
                fields=["club", "-on"], condition=models.Q(taken_back_at=None), name="entries_that_count"
            ),
        ]
        constraints = [
            models.UniqueConstraint(fields=["club", "client_id"], name="an_entry_arrives_once_per_club")
        ]
        verbose_name_plural = "entries"

    def __str__(self):
        return f"{self.get_kind_display()} on {dated(self.on)}"

    @property
    def work(self) -> Work:
        return WORKS[self.kind]

    @property
    def places(self) -> str:
        """Its greens by name: "Fourth, Seventh"."""
        return ", ".join(line.green.name for line in self.lines.all())

    @property
    def facts(self) -> list[tuple[str, str]]:
        """The details in words: [("Height of cut on the bench", "8 mm"), …]."""
        kept = [(field, self.details.get(field.key)) for field in self.work.fields]
        return [(field.words, field.shown(value)) for field, value in kept if value is not None]

    @property
    def short(self) -> str:
        """What was done in one line: "9.5 mm, boxes off" or "22.5 kg of Spring 12-5-9"."""
        kept = [(field, self.details.get(field.key)) for field in self.work.fields]
        said = [field.short(value) for field, value in kept if value is not None]
        return ", ".join([*(str(product) for product in self.products.all()), *said])

    @property
    def reads(self) -> list[tuple[str, str]]:
        """The whole entry in words, line by line."""
        pairs = [
            ("Day", dated(self.on) + (f", {self.at_time:%H:%M}" if self.at_time else "")),
            ("Greens", "; ".join(line.words for line in self.lines.all())),
            *self.facts,
            *((str(product.label.product), product.words) for product in self.products.all()),
            ("Nutrients", " · ".join(nutrient.words for nutrient in self.nutrients)),
            ("Note", self.note),
            ("Labour", f"{self.minutes} min" if self.minutes else ""),
            ("Done by", self.done_by.name),
        ]
        return [(words, value) for words, value in pairs if value]

    @property
    def area_dm2(self) -> int:
        """Of all its greens, as they were then; 0 where one of them is not known."""
        areas = [line.area_dm2 for line in self.lines.all()]
        return sum(areas) if all(areas) else 0

    @property
    def shares(self) -> list[str]:
        """How much of each product each of several greens had, by area."""
        each = [(line.green.name, line.area_dm2) for line in self.lines.all()]
        products = self.products.all() if len(each) > 1 else ()
        return [
            f"{one.label.product}: {amounts.shares_in_words(one.amount, one.label.unit, each)}"
            for one in products
        ]

    @property
    def nutrients(self) -> list[Nutrient]:
        """What all its products brought together, element by element."""
        rows = [row for product in self.products.all() for row in product.nutrients.all()]
        sums = {element: sum(row.mg_m2 for row in rows if row.element == element) for element in ELEMENTS}
        area = self.area_dm2
        return [
            Nutrient(element, mg_m2, mg_m2 / 100, mg_m2 * area / 100_000_000)
            for element, mg_m2 in sums.items()
            if mg_m2
        ]


class EntryGreen(models.Model):
    """A green of an entry, with its area as it was on that day.

    ``kind`` and ``on`` are those of its entry, written with it, so that the work on one green in a span
    of days is found without asking every entry of its years.
    """

    entry = models.ForeignKey("greens.Entry", models.CASCADE, related_name="lines")
    green = models.ForeignKey("greens.Green", models.PROTECT, related_name="entry_lines", db_index=False)
    establishment = models.ForeignKey(
        "greens.Establishment", models.PROTECT, null=True, blank=True, related_name="entry_lines",
        db_index=False,
    )  # fmt: skip
    kind = models.CharField(max_length=20)
    on = models.DateField()
    area_dm2 = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["green"]
        indexes = [
            models.Index(fields=["green", "kind", "on"]),
            models.Index(fields=["establishment", "kind", "on"]),
        ]
        constraints = [
            models.UniqueConstraint(fields=["entry", "green"], name="a_green_stands_once_in_an_entry")
        ]

    def __str__(self):
        return str(self.green)

    @property
    def words(self) -> str:
        """The green with its area of then: "Seventh, 450 m²"."""
        return f"{self.green}, {self.area_dm2 / 100:g} m²" if self.area_dm2 else str(self.green)


class EntryProduct(models.Model):
    """A product of an entry: the amount over all its greens, in g or ml, on the label of that day."""

    entry = models.ForeignKey("greens.Entry", models.CASCADE, related_name="products")
    label = models.ForeignKey("greens.Label", models.PROTECT, related_name="entry_products")
    amount = models.PositiveBigIntegerField()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["entry", "label"], name="a_label_stands_once_in_an_entry")
        ]

    def __str__(self):
        return f"{self.amount_words} of {self.label.product}"

    @property
    def words(self) -> str:
        """Amount, depth of a sand and rate in one phrase: "22.5 kg, 50 g/m² (500 kg/ha)"."""
        number = self.label.product.registration_number
        said = (self.amount_words, self.depth_words, self.rate_words, number and f"registration {number}")
        return ", ".join(one for one in said if one)

    @property
    def amount_words(self) -> str:
        return amounts.in_words(self.amount, self.label.unit)

    @property
    def rate_words(self) -> str:
        return amounts.rate_in_words(self.amount, self.label.unit, self.entry.area_dm2)

    @property
    def depth_words(self) -> str:
        """How deep a sand lies; empty for what is no sand."""
        return amounts.depth_in_words(self.amount, self.entry.area_dm2, self.label.bulk_density_t_m3)


class EntryNutrient(models.Model):
    """What a product of an entry brought, elemental, in mg/m² of each of the entry's greens."""

    product = models.ForeignKey("greens.EntryProduct", models.CASCADE, related_name="nutrients")
    element = models.CharField(max_length=4)
    mg_m2 = models.PositiveIntegerField()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["product", "element"], name="an_element_once_per_product_line")
        ]

    def __str__(self):
        return f"{self.mg_m2} mg/m² {self.element}"


class EntryRevision(models.Model):
    """An entry as it read before a correction."""

    entry = models.ForeignKey("greens.Entry", models.CASCADE, related_name="revisions")
    number = models.PositiveSmallIntegerField()
    as_it_was = models.JSONField()
    replaced_at = models.DateTimeField(auto_now_add=True)
    replaced_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")

    class Meta:
        ordering = ["-number"]
        constraints = [models.UniqueConstraint(fields=["entry", "number"], name="entry_revisions_count_up")]

    def __str__(self):
        return f"revision {self.number} of {self.entry}"
