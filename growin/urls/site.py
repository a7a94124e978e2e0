"""Addresses outside the pages of a club, each opened by a secret: calendars, and programs' questions."""

from django.urls import path

from growin.urls.interface import for_programs
from growin.views import feed

urlpatterns = [path("calendar/<str:secret>/greens.ics", feed.feed, name="feed"), *for_programs]
