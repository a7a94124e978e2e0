"""How a green in play stood on a day: open, frosted, thawing, waterlogged, temporary, rested."""

from django.db import models

from greens.choices import DayStateKind


class DayState(models.Model):
    green = models.ForeignKey("greens.Green", models.CASCADE, related_name="day_states")
    on = models.DateField()
    state = models.CharField(max_length=12, choices=DayStateKind.choices)
    note = models.CharField(max_length=200, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")

    class Meta:
        ordering = ["-on"]
        constraints = [models.UniqueConstraint(fields=["green", "on"], name="one_state_per_green_and_day")]

    def __str__(self):
        return f"{self.green}: {self.get_state_display()} on {self.on}"
