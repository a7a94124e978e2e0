"""The years of a green after opening."""

from django.urls import path

from growin.views import years

urlpatterns = [path("greens/<int:green_id>/years/", years.years, name="years")]
