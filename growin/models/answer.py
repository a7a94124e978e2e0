"""What became of a step: done, not done with its reason, or put off."""

from django.db import models


class AnswerKind(models.TextChoices):
    DONE = "done", "Done"
    NOT_DONE = "not_done", "Not done"
    PUT_OFF = "put_off", "Put off"


class StepAnswer(models.Model):
    """Hangs on the step's key, not on a version; a later answer replaces an earlier one."""

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="step_answers")
    key = models.CharField(max_length=60)
    kind = models.CharField(max_length=10, choices=AnswerKind.choices)
    on = models.DateField()
    until = models.DateField(null=True, blank=True)
    reason = models.CharField(max_length=200, blank=True)
    entry = models.ForeignKey(
        "greens.Entry", models.SET_NULL, null=True, blank=True, related_name="step_answers"
    )
    reading_set = models.ForeignKey(
        "greens.ReadingSet", models.SET_NULL, null=True, blank=True, related_name="step_answers"
    )
    differs = models.CharField(max_length=300, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now=True)

    class Meta:
        indexes = [models.Index(fields=["establishment", "on"])]
        constraints = [
            models.UniqueConstraint(fields=["establishment", "key"], name="one_answer_per_step_key")
        ]

    def __str__(self):
        return f"{self.key}: {self.get_kind_display()}"
