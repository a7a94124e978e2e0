"""Doors for the clock and the worker: ids in, one action, nothing else."""

from celery import shared_task

from greens.actions import job
from growin.actions import forecast, lookout, warning


@shared_task(name="sweep forecasts")
def sweep_forecasts() -> None:
    forecast.queue_due()


@shared_task(name=forecast.FORECAST)
def work_out_forecast(job_id: int) -> None:
    job.do(job_id, forecast.make)


@shared_task(name=lookout.LOOK)
def look_at_clubs() -> None:
    lookout.look_round()


@shared_task(name="go on with warnings")
def go_on_with_warnings() -> None:
    warning.go_on()
