"""The club itself: particulars, normals, the record of changes."""

from django.urls import path

from greens.views import closing, club, trail

urlpatterns = [
    path("club/", club.club, name="club"),
    path("club/particulars/", club.particulars, name="particulars"),
    path("club/feeding-rules/", club.feeding_rules, name="feeding_rules"),
    path("club/normals/", club.normals, name="normals"),
    path("club/close/", closing.close_club, name="close_club"),
    path("club/keep/", closing.keep_club, name="keep_club"),
    path("changes/", trail.changes, name="changes"),
]
