"""The diary: logging work, looking it up, correcting it, taking it back."""

from django.urls import path

from growin.views import diary, log

urlpatterns = [
    path("diary/", diary.diary, name="diary"),
    path("diary/log/", log.choose, name="log"),
    path("diary/log/at-once/", log.at_once, name="log_at_once"),
    path("diary/log/<slug:kind>/", log.work, name="log_work"),
    path("diary/<int:entry_id>/", diary.entry, name="entry"),
    path("diary/<int:entry_id>/correct/", log.correct, name="correct_entry"),
    path("diary/<int:entry_id>/take-back/", diary.take_back, name="take_back_entry"),
    path("diary/<int:entry_id>/answer/", diary.answer, name="answer_by_entry"),
]
