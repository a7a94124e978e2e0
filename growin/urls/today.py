"""The day's page."""

from django.urls import path

from growin.views import today

urlpatterns = [path("today/", today.today, name="today")]
