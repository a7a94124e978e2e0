"""What the contractor has still to put right, and until when."""

from django.db import models

from growin.agronomy.fields import TEXT_LIMIT


class Defect(models.Model):
    """``entry`` is the one of the diary that it was logged with; ``due_on`` empty until a day is agreed."""

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="defects")
    entry = models.ForeignKey("greens.Entry", models.PROTECT, null=True, blank=True, related_name="defects")
    what = models.CharField(max_length=TEXT_LIMIT)
    place = models.CharField(max_length=TEXT_LIMIT, blank=True)
    found_on = models.DateField()
    due_on = models.DateField(null=True, blank=True)
    put_right_on = models.DateField(null=True, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")

    class Meta:
        ordering = ["put_right_on", "due_on"]
        constraints = [
            models.UniqueConstraint(
                fields=["entry", "establishment"], name="an_entry_notes_a_defect_once_per_rebuild"
            )
        ]

    def __str__(self):
        return self.what
