"""A code beside the password at sign-in, for those who want it."""

from django.db import models


class SecondStep(models.Model):
    """``sealed_key`` is the key that the phone holds too, sealed by the site's own. ``last_count`` is the
    half minute of the last code that was taken, so that none is taken twice. Until ``on_since`` it is being
    set up and asked of nobody.
    """

    person = models.OneToOneField("greens.Person", models.CASCADE, related_name="second_step")
    sealed_key = models.TextField()
    last_count = models.PositiveBigIntegerField(default=0)
    made_at = models.DateTimeField()
    on_since = models.DateTimeField(null=True, blank=True)

    def __str__(self):
        return f"code at sign-in of {self.person}"


class SpareCode(models.Model):
    """One of the codes for a day without the phone; only its hash is kept, and it opens once."""

    step = models.ForeignKey(SecondStep, models.CASCADE, related_name="spare_codes")
    code_hash = models.CharField(max_length=64)
    used_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["step", "code_hash"], name="one_row_per_spare_code")]

    def __str__(self):
        return f"spare code of {self.step.person}"
