"""When a green may be ready."""

from django.urls import path

from growin.views import forecast

urlpatterns = [
    path("rebuilds/<int:establishment_id>/forecast/", forecast.forecast, name="forecast"),
    path("rebuilds/<int:establishment_id>/forecast.svg", forecast.forecast_picture, name="forecast_picture"),
]
