"""A revision of a product's label, entered as printed; past entries keep theirs."""

from django.db import models

from greens.choices import AmountUnit, LabelBasis


class Label(models.Model):
    product = models.ForeignKey("greens.Product", models.CASCADE, related_name="labels")
    revision = models.PositiveSmallIntegerField()
    basis = models.CharField(max_length=3, choices=LabelBasis.choices, default=LabelBasis.BY_WEIGHT)
    unit = models.CharField(max_length=2, choices=AmountUnit.choices, default=AmountUnit.GRAMS)
    density_kg_l = models.DecimalField(max_digits=4, decimal_places=3, null=True, blank=True)
    bulk_density_t_m3 = models.DecimalField(max_digits=4, decimal_places=2, null=True, blank=True)
    release_weeks = models.PositiveSmallIntegerField(null=True, blank=True)
    from_day = models.DateField()
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")

    class Meta:
        ordering = ["product", "-revision"]
        constraints = [
            models.UniqueConstraint(fields=["product", "revision"], name="labels_count_up_per_product")
        ]

    def __str__(self):
        return f"{self.product}, label {self.revision}"


class LabelLine(models.Model):
    """``part`` is the printed word: N_total, N_ammonium, P2O5, K2O …; ``percent`` as printed."""

    label = models.ForeignKey("greens.Label", models.CASCADE, related_name="lines")
    part = models.CharField(max_length=12)
    percent = models.DecimalField(max_digits=6, decimal_places=3)

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["label", "part"], name="a_label_names_a_part_once")]

    def __str__(self):
        return f"{self.percent:g} % {self.part}"
