"""A revision of a product's label, entered as printed; past entries keep theirs."""

from decimal import Decimal

from django.db import models

from greens.choices import AmountUnit, LabelBasis
from growin.agronomy import label as printed

#: What a label is known by, with its short sign.
MAIN_PARTS = {"N_total": "N", "P2O5": "P₂O₅", "K2O": "K₂O", "P": "P", "K": "K", "Fe": "Fe"}


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

    @property
    def is_liquid(self) -> bool:
        return self.unit == AmountUnit.MILLILITRES

    @property
    def as_printed(self) -> dict[str, Decimal]:
        """Per cent by line code, as the bag or can says."""
        return {line.part: line.percent for line in self.lines.all()}

    @property
    def short_words(self) -> str:
        """The label in one phrase: "N 12 %, P2O5 5 %", "1.6 t/m³"."""
        if self.bulk_density_t_m3:
            return f"{float(self.bulk_density_t_m3):g} t/m³"
        lines = self.as_printed
        if lines.keys() & set(printed.NITROGEN_FORMS):
            lines["N_total"] = printed.nitrogen_percent(lines)
        return ", ".join(
            f"{sign} {lines[part].normalize():f} %" for part, sign in MAIN_PARTS.items() if part in lines
        )

    @property
    def contents(self) -> dict[str, Decimal]:
        """Elements, g in each kg or litre, exact."""
        lines = self.as_printed
        return contents_of(lines, self.unit, self.basis, self.density_kg_l) if lines else {}


def contents_of(lines: dict, unit: str, basis: str, density_kg_l) -> dict[str, Decimal]:
    """Elements of a label, g in each kg or litre; raises ImpossibleValue for one that cannot be."""
    form = printed.LIQUID if unit == AmountUnit.MILLILITRES else printed.SOLID
    return printed.contents(lines, form=form, basis=basis, density_kg_l=density_kg_l)


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

    @property
    def words(self) -> str:
        return printed.LINES[self.part].words
