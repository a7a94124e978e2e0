"""What the contractor has still to put right, and until when."""

from django.db import models


class Defect(models.Model):
    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="defects")
    what = models.CharField(max_length=300)
    place = models.CharField(max_length=120, blank=True)
    found_on = models.DateField()
    due_on = models.DateField()
    put_right_on = models.DateField(null=True, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")

    class Meta:
        ordering = ["put_right_on", "due_on"]

    def __str__(self):
        return self.what
