"""What came into the shed of a product, or was counted there."""

from django.db import models

from greens.choices import StockKind
from growin.agronomy import amounts


class StockLine(models.Model):
    """``amount`` in g or ml, as the product's label counts it. A count says what is there when it is
    noted; a delivery adds to it. What was noted by mistake is marked as taken back."""

    product = models.ForeignKey("greens.Product", models.CASCADE, related_name="stock_lines")
    kind = models.CharField(max_length=10, choices=StockKind.choices)
    on = models.DateField()
    amount = models.PositiveBigIntegerField()
    unit = models.CharField(max_length=2)
    lot = models.CharField(max_length=40, blank=True)
    use_by = models.DateField(null=True, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    taken_back_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-on", "-pk"]
        indexes = [models.Index(fields=["product", "-on"])]

    def __str__(self):
        return f"{self.product}: {self.amount_words} {self.get_kind_display().lower()}"

    @property
    def amount_words(self) -> str:
        return amounts.in_words(self.amount, self.unit)
