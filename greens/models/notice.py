"""Something that a person is told: on the site, and by e-mail as they wish."""

from django.db import models
from django.db.models import Q

from greens.choices import NoticeKind


class Notice(models.Model):
    """A row before anything is mailed. ``key`` names what it is about, so that nobody is told it twice.

    ``to`` is the place in the club as which somebody is told; empty for the operator of the site. One that
    ``asks_word`` is a warning: it is acknowledged, not merely seen. ``mail_at`` is when it is mailed, empty
    where it stands on the site only; ``mail`` the one that carried it. ``lapsed_at`` says since when it
    holds no more, ``asleep_until`` until when its reader put it aside.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="notices")
    person = models.ForeignKey("greens.Person", models.CASCADE, related_name="notices")
    to = models.ForeignKey("greens.Membership", models.CASCADE, null=True, blank=True, related_name="notices")
    kind = models.CharField(max_length=10, choices=NoticeKind.choices)
    key = models.CharField(max_length=120)
    green = models.ForeignKey("greens.Green", models.CASCADE, null=True, blank=True, related_name="+")
    weight = models.PositiveSmallIntegerField(default=0)
    subject = models.CharField(max_length=160)
    text = models.TextField()
    place = models.CharField("the page it is about", max_length=200, blank=True)
    asks_word = models.BooleanField(default=False)
    made_at = models.DateTimeField(auto_now_add=True)
    seen_at = models.DateTimeField(null=True, blank=True)
    lapsed_at = models.DateTimeField(null=True, blank=True)
    asleep_until = models.DateTimeField(null=True, blank=True)
    mail_at = models.DateTimeField(null=True, blank=True)
    period = models.CharField(max_length=20, blank=True)
    mail = models.ForeignKey("greens.Mail", models.SET_NULL, null=True, blank=True, related_name="notices")

    class Meta:
        ordering = ["-made_at", "-pk"]
        indexes = [
            models.Index(fields=["mail_at"], condition=Q(mail=None), name="notices_to_be_mailed"),
            models.Index(fields=["to", "seen_at"]),
            models.Index(fields=["club", "key"]),
        ]
        constraints = [
            models.UniqueConstraint(fields=["club", "person", "key"], name="nobody_is_told_the_same_twice")
        ]

    def __str__(self):
        return self.subject
