"""Addresses inside a club that show or need the programme, one file per noun."""

from growin.urls import (
    checks,
    day_state,
    decision,
    diary,
    green,
    programme,
    proposal,
    readiness,
    readings,
    section,
    settings,
    statement,
    sums,
    today,
    weather,
    weather_upload,
)

in_a_club = [
    *today.urlpatterns,
    *green.urlpatterns,
    *section.urlpatterns,
    *programme.urlpatterns,
    *diary.urlpatterns,
    *readings.urlpatterns,
    *readiness.urlpatterns,
    *statement.urlpatterns,
    *decision.urlpatterns,
    *proposal.urlpatterns,
    *day_state.urlpatterns,
    *settings.urlpatterns,
    *weather.urlpatterns,
    *weather_upload.urlpatterns,
    *checks.urlpatterns,
    *sums.urlpatterns,
]
