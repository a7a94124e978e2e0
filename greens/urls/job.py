"""How far a piece of long work is."""

from django.urls import path

from greens.views import job

urlpatterns = [path("jobs/<int:job_id>/state/", job.job_state, name="job_state")]
