"""The diary: work that was done, on which greens, with what."""

from uuid import uuid4

from django.db import models

from growin.agronomy.works import WORKS


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

    class Meta:
        ordering = ["-on", "-pk"]
        indexes = [models.Index(fields=["club", "-on"]), models.Index(fields=["club", "kind", "-on"])]
        constraints = [
            models.UniqueConstraint(fields=["club", "client_id"], name="an_entry_arrives_once_per_club")
        ]
        verbose_name_plural = "entries"

    def __str__(self):
        return f"{self.get_kind_display()} on {self.on}"


class EntryGreen(models.Model):
    """A green of an entry, with its area as it was on that day."""

    entry = models.ForeignKey("greens.Entry", models.CASCADE, related_name="lines")
    green = models.ForeignKey("greens.Green", models.PROTECT, related_name="entry_lines")
    establishment = models.ForeignKey(
        "greens.Establishment", models.PROTECT, null=True, blank=True, related_name="entry_lines"
    )
    area_dm2 = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["green"]
        constraints = [
            models.UniqueConstraint(fields=["entry", "green"], name="a_green_stands_once_in_an_entry")
        ]

    def __str__(self):
        return str(self.green)


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
        return f"{self.amount} {self.label.unit} of {self.label.product}"


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
