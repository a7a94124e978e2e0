"""The years of a green after opening."""

from django.urls import path

from growin.views import years

urlpatterns = [
    path("greens/<int:green_id>/years/", years.years, name="years"),
    path("greens/<int:green_id>/years/together.svg", years.picture, name="years_picture"),
    path("greens/<int:green_id>/years/<slug:followed>/trend.svg", years.trend, name="trend_picture"),
]
