"""Analyses of soil and water."""

from django.urls import path

from growin.views import analysis

urlpatterns = [
    path("greens/<int:green_id>/analyses/", analysis.analyses, name="analyses"),
    path("greens/<int:green_id>/analyses/soil/", analysis.add, {"sheet": "soil"}, name="add_soil"),
    path("greens/<int:green_id>/analyses/water/", analysis.add, {"sheet": "water"}, name="add_water"),
    path("analyses/<int:analysis_id>/take-back/", analysis.take_back, name="take_back_analysis"),
]
