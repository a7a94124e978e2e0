"""Everything of a club, to take away."""

from django.urls import path

from growin.views import fair_copy as views

urlpatterns = [
    path("fair-copy/", views.fair_copy, name="fair_copy"),
    path("fair-copy/workbook.xlsx", views.fair_copy_workbook, name="fair_copy_workbook"),
    path("fair-copy/tables.zip", views.fair_copy_zip, name="fair_copy_zip"),
]
