"""How the sums are checked."""

from django.urls import path

from growin.views import checks

urlpatterns = [path("sums/checked/", checks.checks, name="checks")]
