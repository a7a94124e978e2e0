"""Programmes: a chain of numbered versions, each kept as it was issued."""

from django.db import models

from growin.agronomy.plain_words import amount, counted
from growin.agronomy.programme import STEP_ONLY_KINDS
from growin.agronomy.works import WORKS

STEP_WORDS = {key: work.words for key, work in WORKS.items()} | {
    "feed": "Feeding",
    "cut": "Height of cut",
    "mower_set": "Setting the mower",
    "dressing": "Topdressing",
    "roll": "Rolling",
    "brush": "Brushing",
    "aerate": "Aeration",
    "water": "Watering",
    "hand_water": "Hand watering",
    "overseed": "Overseeding",
    "walk": "Walk",
    "irrigation_check": "Irrigation check",
    "drain_check": "Drain outlet check",
    **{key: words.capitalize() for key, words in STEP_ONLY_KINDS.items()},
}
DIFFERENCES = {"moved": "moved", "added": "added", "gone": "taken out"}


class Programme(models.Model):
    """One version. It is never changed; the next one replaces it. ``kept_on`` is the last day on which a
    newer drawing was looked at and this one was kept.

    ``difference`` says how it differs from the version before: ``moved`` {key: [from, to]},
    ``added`` and ``gone`` [key], and ``drawn`` {key: {…}}, what the drawing would have where
    the head greenkeeper's own step was kept.
    """

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="programmes")
    number = models.PositiveSmallIntegerField()
    issued_at = models.DateTimeField(auto_now_add=True)
    issued_on = models.DateField()
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    why = models.CharField(max_length=300, blank=True)
    inputs = models.JSONField(default=dict)
    settings = models.JSONField(default=dict)
    difference = models.JSONField(default=dict)
    kept_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ["establishment", "-number"]
        indexes = [models.Index(fields=["establishment", "issued_on"])]
        constraints = [
            models.UniqueConstraint(fields=["establishment", "number"], name="programme_versions_count_up")
        ]

    def __str__(self):
        return f"programme {self.number} of {self.establishment}"

    @property
    def difference_words(self) -> str:
        """Against the version before: "12 steps moved, 1 added"; empty for the first."""
        if self.number == 1:
            return ""
        counts = {words: len(self.difference.get(key, ())) for key, words in DIFFERENCES.items()}
        said = [f"{counted(count, 'steps')} {words}" for words, count in counts.items() if count]
        return ", ".join(said) or "no day moved"


class ProgrammeStep(models.Model):
    """A dated step. ``key`` is the same through all versions, so that answers stay with it."""

    programme = models.ForeignKey("growin.Programme", models.CASCADE, related_name="steps")
    key = models.CharField(max_length=60)
    kind = models.CharField(max_length=20)
    earliest = models.DateField()
    likely = models.DateField()
    latest = models.DateField()
    amount = models.FloatField(null=True, blank=True)
    unit = models.CharField(max_length=40, blank=True)
    what = models.CharField(max_length=200)
    how = models.CharField(max_length=600, blank=True)
    why = models.CharField(max_length=600, blank=True)
    source = models.CharField(max_length=300, blank=True)
    mark = models.CharField(max_length=20)
    gate = models.CharField(max_length=200, blank=True)
    measure = models.CharField(max_length=24, blank=True)
    cautions = models.JSONField(default=list)
    by_hand = models.BooleanField(default=False)
    is_dropped = models.BooleanField(default=False)

    class Meta:
        ordering = ["likely", "key"]
        indexes = [models.Index(fields=["programme", "likely"])]
        constraints = [models.UniqueConstraint(fields=["programme", "key"], name="a_key_once_per_version")]

    def __str__(self):
        return self.what

    @property
    def kind_words(self) -> str:
        """What kind of step it is, as a heading says it."""
        return STEP_WORDS.get(self.kind, self.kind)

    @property
    def planned(self) -> str:
        """The amount with its unit: "6 kg N/ha"; empty where there is none."""
        return "" if self.amount is None else amount(self.amount, self.unit, 2)
