"""The greens of a club, and one green's page."""

from django.urls import path

from growin.views import green

urlpatterns = [
    path("greens/", green.greens, name="greens"),
    path("greens/<int:green_id>/", green.green, name="green"),
    path("greens/<int:green_id>/strip.svg", green.strip, name="strip"),
]
