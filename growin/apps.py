"""The app that says what should happen and whether a green is ready."""

from django.apps import AppConfig


class GrowinConfig(AppConfig):
    name = "growin"
    verbose_name = "Grow-in"
    default_auto_field = "django.db.models.BigAutoField"
