"""The statement for the committee, as PDF."""

from django.urls import path

from growin.views import statement

urlpatterns = [path("greens/<int:green_id>/statement.pdf", statement.statement, name="statement")]
