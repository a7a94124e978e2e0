"""Doors for the clock and the worker: ids in, one action, nothing else."""

from celery import shared_task
from django.conf import settings

from greens.actions import backup, book_keep, closing, job, mail, notice, weather_upload


@shared_task(name="sweep jobs")
def sweep_jobs() -> None:
    job.sweep()


@shared_task(name=weather_upload.IMPORT)
def import_weather(job_id: int) -> None:
    job.do(job_id, weather_upload.import_days)


@shared_task(name=book_keep.LOOK)
def look_into_book(job_id: int) -> None:
    job.do(job_id, book_keep.look_by_job)


@shared_task(name=book_keep.IMPORT)
def bring_in_book(job_id: int) -> None:
    job.do(job_id, book_keep.import_book)


@shared_task(name="close clubs")
def close_clubs() -> None:
    closing.sweep()


@shared_task(name=notice.SEND)
def send_mails() -> None:
    mail.send_due()


@shared_task(name="back up")
def back_up() -> None:
    backup.back_up(folder=settings.BACKUP_DIR, keep=settings.BACKUP_KEEP)
