"""How messages reach the worker: through Redis where there is one, else through a folder."""

from pathlib import Path

from celery.schedules import crontab

LONGEST_TASK_S = 3600
#: A page waits no longer for a broker that does not answer; the row is kept, the sweep nudges again.
PATIENCE = {"max_retries": 1, "interval_start": 0, "interval_step": 0.2, "interval_max": 0.2}


def through_redis(url: str) -> dict:
    """A task is confirmed when it is done, and given to another worker when it never was.

    A Redis that takes the call and says nothing is left after ``socket_timeout``, or a page would hang.
    """
    return {
        "CELERY_BROKER_URL": url,
        "CELERY_BROKER_TRANSPORT_OPTIONS": {
            "visibility_timeout": LONGEST_TASK_S,
            "unacked_restore_throttle": 1,
            "socket_connect_timeout": 2,
            "socket_timeout": 4,
        },
        "CELERY_TASK_ACKS_LATE": True,
        "CELERY_TASK_REJECT_ON_WORKER_LOST": True,
        "CELERY_WORKER_PREFETCH_MULTIPLIER": 1,
    }


def through_folder(folder: Path) -> dict:
    """One folder for in and out, one for the worker's control; both are made first."""
    messages, control = folder / "messages", folder / "control"
    for one in (messages, control):
        one.mkdir(parents=True, exist_ok=True)
    return {
        "CELERY_BROKER_URL": "filesystem://",
        "CELERY_BROKER_TRANSPORT_OPTIONS": {
            "data_folder_in": str(messages),
            "data_folder_out": str(messages),
            "control_folder": str(control),
            "store_processed": False,
        },
    }


def backed_up(at: tuple[int, int] | None, queue: str) -> dict:
    """The clock's line for a backup every day at that hour and minute (UTC); none where none is wanted."""
    if at is None:
        return {}
    hour, minute = at
    options = {"expires": LONGEST_TASK_S, "queue": queue}
    return {"back up": {"task": "back up", "schedule": crontab(minute, hour), "options": options}}
