"""Whether a green may open."""

from django.urls import path

from growin.views import readiness

urlpatterns = [path("greens/<int:green_id>/readiness/", readiness.readiness, name="readiness")]
