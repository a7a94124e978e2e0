"""Doors for the clock and the worker: ids in, one action, nothing else."""

from celery import shared_task

from greens.actions import job


@shared_task(name="sweep jobs")
def sweep_jobs() -> None:
    job.sweep()
