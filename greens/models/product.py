"""What stands in the shed: feeds, sands, seed, wetting agents, plant protection products."""

from django.db import models

from greens.choices import ProductKind


class Product(models.Model):
    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="products")
    kind = models.CharField(max_length=14, choices=ProductKind.choices)
    name = models.CharField(max_length=80)
    material = models.ForeignKey("greens.Material", models.PROTECT, null=True, blank=True, related_name="+")
    registration_number = models.CharField(max_length=40, blank=True)
    retired_on = models.DateField(null=True, blank=True)

    book = models.ForeignKey("greens.Book", models.SET_NULL, null=True, blank=True, related_name="products")

    class Meta:
        ordering = ["kind", "name"]
        constraints = [
            models.UniqueConstraint(fields=["club", "name"], name="a_product_has_its_name_once_in_a_club")
        ]

    def __str__(self):
        return self.name

    @property
    def newest_label(self):
        """The label that counts for new entries (the newest revision)."""
        return max(self.labels.all(), key=lambda label: label.revision, default=None)
