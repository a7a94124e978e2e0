"""The season of a green, or of all, as a report: a page, and a PDF."""

from django.urls import path

from growin.views import season_report

urlpatterns = [
    path("season.pdf", season_report.all_as_pdf, name="season_reports_pdf"),
    path("greens/<int:green_id>/season/", season_report.page, name="season_report"),
    path("greens/<int:green_id>/season.pdf", season_report.as_pdf, name="season_report_pdf"),
]
