"""Warnings against planned opening days."""

from collections.abc import Iterable
from datetime import date, datetime

from django.db.models import QuerySet

from greens.models import Establishment, Notice
from growin.models import EarlyWarning


def standing(rebuilds: Iterable[int]) -> QuerySet[EarlyWarning]:
    """Those that stand on these rebuilds."""
    return EarlyWarning.objects.filter(establishment__in=list(rebuilds), ended_at=None)


def to_go_on(now: datetime) -> QuerySet[EarlyWarning]:
    """Of every club: nobody acknowledged them in time; for the sweep alone."""
    rows = EarlyWarning.objects.filter(ended_at=None, next_at__lte=now)
    return rows.select_related("establishment__green__club").order_by("next_at")


def against_days_to_come(establishment: Establishment, on: date) -> QuerySet[EarlyWarning]:
    """Those that stand against a day to come, with the steps that they took; two queries."""
    rows = establishment.early_warnings.filter(ended_at=None, planned_on__gte=on)
    return rows.select_related("establishment__green").prefetch_related("steps")


def acknowledgement(warning: EarlyWarning) -> Notice | None:
    """The first word of anybody on what was told last; None while nobody said one."""
    said = Notice.objects.filter(
        club=warning.establishment.green.club_id, key__startswith=warning.keys, seen_at__gte=warning.told_at
    )
    return said.select_related("to", "person").order_by("seen_at").first()
