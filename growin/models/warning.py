"""The warning against a planned opening day that the forecast has slipped past, and how far it has gone."""

from django.db import models

from greens.choices import Role
from growin.agronomy.plain_words import dated


class Basis(models.TextChoices):
    """Whose the planned day is."""

    PROPOSED = "proposed", "proposed by the committee"
    DECIDED = "decided", "decided by the committee"
    PROGRAMME = "programme", "planned in the programme"


class EarlyWarning(models.Model):
    """One of a planned day. ``likely_on`` and ``told_at_mark`` as they were when people were told last,
    for the ``told`` th time.

    ``next_at`` is when it goes on to the next in the chain; empty once somebody acknowledged it, the chain
    is at its end, or it ended because the day stands no longer or the forecast is back before it.
    """

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="early_warnings")
    planned_on = models.DateField()
    basis = models.CharField(max_length=10, choices=Basis.choices)
    first = models.CharField("told first", max_length=12, choices=Role.choices)
    likely_on = models.DateField(null=True, blank=True)
    told_at_mark = models.PositiveSmallIntegerField(null=True, blank=True)
    told = models.PositiveSmallIntegerField(default=0)
    made_at = models.DateTimeField(auto_now_add=True)
    told_at = models.DateTimeField()
    next_at = models.DateTimeField(null=True, blank=True, db_index=True)
    acknowledged_at = models.DateTimeField(null=True, blank=True)
    acknowledged_by = models.ForeignKey(
        "greens.Membership", models.PROTECT, null=True, blank=True, related_name="+"
    )
    ended_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["establishment", "planned_on", "basis"], name="one_warning_of_a_planned_day"
            )
        ]

    def __str__(self):
        return f"warning against {dated(self.planned_on)}, {self.get_basis_display()}"

    @property
    def keys(self) -> str:
        """What the keys of its notices begin with."""
        return f"early {self.pk} "


class RaisedStep(models.Model):
    """A step of the chain that was taken: once, and recorded with the names of those told."""

    warning = models.ForeignKey("growin.EarlyWarning", models.CASCADE, related_name="steps")
    number = models.PositiveSmallIntegerField()
    to = models.CharField(max_length=400)
    at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["number"]
        constraints = [
            models.UniqueConstraint(fields=["warning", "number"], name="a_step_of_a_warning_is_taken_once")
        ]

    def __str__(self):
        return f"step {self.number}: {self.to}"
