"""The club itself: particulars, normals, the record of changes."""

from django.urls import path

from greens.views import club, trail

urlpatterns = [
    path("club/", club.club, name="club"),
    path("club/particulars/", club.particulars, name="particulars"),
    path("club/feeding-rules/", club.feeding_rules, name="feeding_rules"),
    path("club/normals/", club.normals, name="normals"),
    path("changes/", trail.changes, name="changes"),
]
