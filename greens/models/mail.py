"""An e-mail to one person: a row before it leaves, so that it leaves once."""

from django.db import models

from greens.choices import Sending


class Mail(models.Model):
    """Carries one notice or several. ``key`` names it among those of its person and club.

    ``period`` is the day or week that it gathers ("day 2026-11-28"), empty for one sent at once;
    ``claimed_at`` says since when somebody is sending it.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="mails")
    person = models.ForeignKey("greens.Person", models.CASCADE, related_name="mails")
    key = models.CharField(max_length=80)
    period = models.CharField(max_length=20, blank=True)
    made_at = models.DateTimeField(auto_now_add=True)
    state = models.CharField(max_length=10, choices=Sending.choices, default=Sending.WAITING)
    tries = models.PositiveSmallIntegerField(default=0)
    next_try_at = models.DateTimeField()
    claimed_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    error = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["-made_at", "-pk"]
        indexes = [models.Index(fields=["state", "next_try_at"])]
        constraints = [
            models.UniqueConstraint(fields=["club", "person", "key"], name="a_mail_of_a_key_is_made_once")
        ]

    def __str__(self):
        return f"{self.key} to {self.person}"
