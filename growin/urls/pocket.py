"""What stays on a phone, and the pages that go with it."""

from django.urls import path

from growin.views import pocket

urlpatterns = [
    path("pocket/", pocket.pocket, name="pocket"),
    path("pocket/pages/", pocket.pages, name="pocket_pages"),
]
