"""What members are told, what they wish to be told, and what was mailed."""

from django.urls import path

from greens.views import mail, notice, wish

urlpatterns = [
    path("notices/", notice.told, name="notices"),
    path("notices/seen/", notice.notice_seen, name="notice_seen"),
    path("notices/all-seen/", notice.all_seen, name="all_notices_seen"),
    path("notices/put-aside/", notice.put_aside, name="notice_put_aside"),
    path("notices/wishes/", wish.wishes, name="wishes"),
    path("notices/sent/", mail.sent, name="notices_sent"),
]
