"""Addresses outside the pages of a club, each opened by a secret: calendars."""

from django.urls import path

from growin.views import feed

urlpatterns = [path("calendar/<str:secret>/greens.ics", feed.feed, name="feed")]
