"""Addresses outside the pages of a club: what a phone keeps, calendars, and programs' questions."""

from django.urls import path

from growin.urls.interface import for_programs
from growin.views import feed, pocket

urlpatterns = [
    path("sw.js", pocket.worker, name="worker"),
    path("no-signal/", pocket.no_signal, name="no_signal"),
    path("calendar/<str:secret>/greens.ics", feed.feed, name="feed"),
    *for_programs,
]
