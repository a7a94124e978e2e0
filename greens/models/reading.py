"""Sets of readings: single values with their protocol, never only a mean."""

from collections.abc import Mapping
from datetime import date
from uuid import uuid4

from django.db import models

from growin.agronomy.measures import MEASURES, Measure
from growin.agronomy.reading_words import shown_value
from growin.agronomy.summaries import Summary, summarise


class ReadingSet(models.Model):
    """``values`` are shaped as the measure says in :mod:`growin.agronomy.measures`.

    ``places`` says where on the green each was taken, [x, y] in m or null, as
    :mod:`growin.agronomy.outline` lays the sheet; it is empty where no place is known.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="reading_sets")
    green = models.ForeignKey("greens.Green", models.PROTECT, related_name="reading_sets")
    establishment = models.ForeignKey(
        "greens.Establishment", models.PROTECT, null=True, blank=True, related_name="reading_sets"
    )
    measure = models.CharField(max_length=24, choices=[(key, one.words) for key, one in MEASURES.items()])
    on = models.DateField()
    at_time = models.TimeField(null=True, blank=True)
    taken_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    logged_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    logged_at = models.DateTimeField(auto_now_add=True)
    client_id = models.UUIDField(default=uuid4)
    values = models.JSONField()
    places = models.JSONField(default=list, blank=True)
    protocol = models.JSONField(default=dict, blank=True)
    note = models.CharField(max_length=2000, blank=True)
    revision = models.PositiveSmallIntegerField(default=1)
    taken_back_at = models.DateTimeField(null=True, blank=True)
    taken_back_by = models.ForeignKey(
        "greens.Membership", models.PROTECT, null=True, blank=True, related_name="+"
    )

    book = models.ForeignKey(
        "greens.Book", models.SET_NULL, null=True, blank=True, related_name="reading_sets"
    )

    class Meta:
        ordering = ["-on", "-pk"]
        indexes = [
            models.Index(fields=["green", "measure", "-on"]),
            models.Index(fields=["establishment", "measure", "-on"]),
        ]
        constraints = [
            models.UniqueConstraint(fields=["club", "client_id"], name="a_reading_arrives_once_per_club")
        ]

    def __str__(self):
        return f"{self.get_measure_display()} on {self.on}"

    @property
    def kind(self) -> Measure:
        return MEASURES[self.measure]

    def in_short(self, settings: Mapping[str, float]) -> Summary:
        """Count, mean and interval, and how many more would narrow it, by the club's constants."""
        return summarise(
            self.kind,
            self.values,
            confidence=settings["summary.confidence"],
            half_width_share=settings["summary.half_width_share"],
            doubtful_m=settings["summary.doubtful_difference_m"],
        )

    @property
    def in_words(self) -> list[str]:
        """The single values as people read them."""
        return [shown_value(self.kind, one) for one in self.values]

    @property
    def how(self) -> list[tuple[str, str]]:
        """The protocol as words and value."""
        fields = (field for field in self.kind.protocol if field.key in self.protocol)
        return [(field.words, field.shown(self.protocol[field.key])) for field in fields]


class ReadingRevision(models.Model):
    """A set of readings as it read before a correction."""

    reading_set = models.ForeignKey("greens.ReadingSet", models.CASCADE, related_name="revisions")
    number = models.PositiveSmallIntegerField()
    as_it_was = models.JSONField()
    replaced_at = models.DateTimeField(auto_now_add=True)
    replaced_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")

    class Meta:
        ordering = ["-number"]
        constraints = [
            models.UniqueConstraint(fields=["reading_set", "number"], name="reading_revisions_count_up")
        ]

    def __str__(self):
        return f"revision {self.number} of {self.reading_set}"

    @property
    def on(self) -> date:
        """The day that it was of."""
        return date.fromisoformat(self.as_it_was["on"])

    @property
    def in_words(self) -> list[str]:
        """The single values as they stood then."""
        kind = self.reading_set.kind
        return [shown_value(kind, one) for one in self.as_it_was["values"]]
