"""What members are told."""

from django.urls import path

from greens.views import notice

urlpatterns = [
    path("notices/", notice.told, name="notices"),
    path("notices/sent/", notice.sent, name="notices_sent"),
    path("notices/seen/", notice.notice_seen, name="notice_seen"),
]
