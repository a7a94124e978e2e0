"""The weather of a club, day by day."""

from django.urls import path

from growin.views import weather

urlpatterns = [
    path("weather/", weather.weather, name="weather"),
    path("weather/day/", weather.weather_day, name="weather_day"),
    path("weather/season.svg", weather.season_picture, name="season_picture"),
]
