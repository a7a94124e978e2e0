"""Something that a member is told: on the site, and by e-mail where they have one."""

from django.db import models

from greens.choices import Sending


class Notice(models.Model):
    """A row before it is sent. ``key`` names what it is about, so that nobody is told the same twice.

    ``state`` is that of its e-mail; ``claimed_at`` says since when somebody is sending it.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="notices")
    to = models.ForeignKey("greens.Membership", models.CASCADE, related_name="notices")
    key = models.CharField(max_length=80)
    subject = models.CharField(max_length=160)
    text = models.TextField()
    place = models.CharField("the page it is about", max_length=200, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)
    seen_at = models.DateTimeField(null=True, blank=True)
    state = models.CharField(max_length=10, choices=Sending.choices, default=Sending.WAITING)
    tries = models.PositiveSmallIntegerField(default=0)
    next_try_at = models.DateTimeField()
    claimed_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    error = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["-made_at", "-pk"]
        indexes = [models.Index(fields=["state", "next_try_at"])]
        constraints = [models.UniqueConstraint(fields=["to", "key"], name="nobody_is_told_the_same_twice")]

    def __str__(self):
        return self.subject
