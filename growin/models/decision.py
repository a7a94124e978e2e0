"""Opening and closing: decisions of people, kept with the evidence as it stood."""

from django.db import models

from growin.agronomy.plain_words import dated


class Pattern(models.TextChoices):
    CLOSED = "closed", "Closed"
    ALTERNATE = "alternate", "Alternate days"
    LIMITED = "limited", "Limited play"
    FULL = "full", "Full play"


class Decision(models.Model):
    """``evidence`` is the verdict of the club's day ``made_on`` with values, rules and settings;
    ``digest`` its SHA-256."""

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="decisions")
    pattern = models.CharField(max_length=10, choices=Pattern.choices)
    made_on = models.DateField()
    from_day = models.DateField()
    stop_rule = models.CharField(max_length=500, blank=True)
    meeting_on = models.DateField(null=True, blank=True)
    present = models.CharField(max_length=400, blank=True)
    reason = models.CharField(max_length=1000, blank=True)
    is_against_verdict = models.BooleanField(default=False)
    verdict = models.CharField(max_length=10)
    evidence = models.JSONField()
    digest = models.CharField(max_length=64)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-from_day", "-pk"]

    def __str__(self):
        return f"{self.get_pattern_display()} from {dated(self.from_day)}"
