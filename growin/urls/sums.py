"""Everyday sums, and what the greens need in water."""

from django.urls import path

from growin.views import sums

urlpatterns = [
    path("sums/", sums.sums, name="sums"),
    path("sums/<slug:sum_key>/", sums.one, name="sum"),
    path("water/", sums.water_needs, name="water_needs"),
]
