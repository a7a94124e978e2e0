"""What the site has before it, as gauges: work, mail, forecasts that wait, and whether somebody does them."""

from collections.abc import Iterator

from django.core.cache import cache
from django.db import DatabaseError
from prometheus_client import CollectorRegistry
from prometheus_client.core import GaugeMetricFamily
from prometheus_client.multiprocess import MultiProcessCollector
from prometheus_client.registry import Collector

from greens.queries import health
from growin.queries import forecast

#: Stale forecasts are sought among all rebuilds of all clubs; a sweep comes once a minute.
STALE_KEPT_S = 60


def everything(folder) -> CollectorRegistry:
    """The counts of all processes that share the folder, and what waits."""
    registry = CollectorRegistry()
    MultiProcessCollector(registry, path=str(folder))
    registry.register(Waiting())
    return registry


class Waiting(Collector):
    """Asked anew at every reading; without its database it says only that."""

    def collect(self) -> Iterator[GaugeMetricFamily]:
        yield gauge("broker_up", "Whether the broker answers", health.broker_answers())
        try:
            waiting = list(in_the_database())
        except DatabaseError:
            waiting = []
        yield gauge("database_up", "Whether the database answers and has all tables", bool(waiting))
        yield from waiting


def in_the_database() -> Iterator[GaugeMetricFamily]:
    yield gauge("jobs_waiting", "Long work that nobody has taken up", health.waiting_jobs().count())
    yield gauge("job_oldest_wait_seconds", "Age of the oldest of it", seconds(health.oldest_job()))
    yield gauge("mails_waiting", "Mails that should be on their way", health.due_mails().count())
    yield gauge("mail_oldest_wait_seconds", "How long the oldest is due", seconds(health.oldest_mail()))
    yield gauge("forecasts_stale", "Forecasts that want to be worked out anew", stale_forecasts())
    yield gauge("worker_up", "Whether somebody has swept within ten minutes", health.is_looked_after())
    if swept := health.last_sweep():
        yield gauge("last_sweep_timestamp_seconds", "When somebody last swept", swept.timestamp())


def stale_forecasts() -> int:
    return cache.get_or_set("stale-forecasts", lambda: forecast.wanting().count(), STALE_KEPT_S)


def gauge(name: str, words: str, value: float) -> GaugeMetricFamily:
    return GaugeMetricFamily(f"greens_{name}", words, value=float(value))


def seconds(age) -> float:
    return round(age.total_seconds(), 3)
