"""The lines that the site writes about itself: as JSON for a site that is watched, as text for a laptop.

``json`` and ``text`` have a line for each request, task and job, and for all that goes wrong; ``quiet`` has
only what goes wrong, as text. All go to standard error, and secrets of addresses are left out of every one.
"""

import json
import logging
from datetime import UTC, datetime

from greens.config.quiet import SecretsLeftOut, hidden
from greens.log_line import carried, words_of

KINDS = ("quiet", "text", "json")


class AsJson(logging.Formatter):
    """One line, one object: when, how grave, who says it, the sentence, and what it carries."""

    def format(self, record: logging.LogRecord) -> str:
        line = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "from": record.name,
            "said": record.getMessage(),
        } | words_of(record)
        if record.exc_info:
            line["trace"] = self.formatException(record.exc_info)
        return json.dumps({key: hidden(value) for key, value in line.items()}, default=str)


class AsText(logging.Formatter):
    """A line to read, with the request, task or job that it belongs to in brackets."""

    def formatMessage(self, record: logging.LogRecord) -> str:
        carries = ", ".join(f"{key} {value}" for key, value in carried().items())
        return f"{super().formatMessage(record)}{f' [{carries}]' if carries else ''}"

    def format(self, record: logging.LogRecord) -> str:
        return hidden(super().format(record))


class OurFault(logging.Filter):
    """Leaves out what visitors did wrong: the line of their request says it already."""

    def filter(self, record: logging.LogRecord) -> bool:
        return getattr(record, "status_code", 500) >= 500


def logging_as(kind: str) -> dict:
    """``LOGGING`` for one of KINDS."""
    ours = {"level": "WARNING" if kind == "quiet" else "INFO"}
    without_secrets = {"filters": ["secrets left out"]}
    return {
        "version": 1,
        "disable_existing_loggers": False,
        "filters": {"secrets left out": {"()": SecretsLeftOut}, "our fault": {"()": OurFault}},
        "formatters": {
            "lines": {"()": AsJson}
            if kind == "json"
            else {"()": AsText, "format": "%(asctime)s %(message)s"},
            "server": {
                "()": "django.utils.log.ServerFormatter",
                "format": "[{server_time}] {message}",
                "style": "{",
            },
        },
        "handlers": {
            "lines": {"class": "logging.StreamHandler", "formatter": "lines", "filters": ["our fault"]},
            "server": {"class": "logging.StreamHandler", "formatter": "server"},
        },
        "root": {"handlers": ["lines"], "level": "WARNING"},
        "loggers": {
            "greens": ours,
            "growin": ours,
            "celery": {"level": "ERROR"},
            "kombu": {"level": "ERROR"},
            "matplotlib.font_manager": {"level": "ERROR"},
            "django": {"handlers": [], "level": "WARNING"},
            "django.request": without_secrets,
            "django.security.csrf": without_secrets,
            "django.server": without_secrets | {"handlers": ["server"], "level": "INFO", "propagate": False},
        },
    }
