"""How the record is put on a phone's home screen."""

from django.urls import path

from greens.views import manifest

urlpatterns = [path("app.webmanifest", manifest.manifest, name="manifest")]
