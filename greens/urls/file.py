"""Stored photographs and documents."""

from django.urls import path

from greens.views import attach, file

urlpatterns = [
    path("attach/", attach.attach, name="attach"),
    path("files/<int:file_id>/", file.file, name="file"),
    path("files/<int:file_id>/small/", file.file_small, name="file_small"),
    path("files/<int:file_id>/remove/", file.file_remove, name="file_remove"),
]
