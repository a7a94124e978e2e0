"""The app that keeps what happened and who may see it."""

from django.apps import AppConfig


class GreensConfig(AppConfig):
    name = "greens"
    verbose_name = "Greens"
    default_auto_field = "django.db.models.BigAutoField"
