"""The section of a build."""

from django.urls import path

from growin.views import section

urlpatterns = [path("rebuilds/<int:establishment_id>/section.svg", section.section, name="section")]
