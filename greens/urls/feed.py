"""A member's own calendar address."""

from django.urls import path

from greens.views import feed

urlpatterns = [
    path("notices/calendar/", feed.feed, name="my_feed"),
    path("notices/calendar/end/", feed.end, name="end_feed"),
]
