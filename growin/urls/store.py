"""Placeholder until the room is built."""

from django.urls import path

from growin.views import today

urlpatterns = [path("store/", today.today, name="store")]
