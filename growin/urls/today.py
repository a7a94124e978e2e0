"""The day's page."""

from django.urls import path

from growin.views import today

urlpatterns = [
    path("today/", today.today, name="today"),
    path("today/sheet/", today.sheet, name="day_sheet"),
    path("today/done/", today.done_together, name="done_together"),
    path("today/walked/", today.walk_all, name="walk_all"),
    path("today/weather/", today.weather_stopped, name="weather_stopped"),
]
