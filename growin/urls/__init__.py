"""Addresses inside a club that show or need the programme, one file per noun."""

from growin.urls import diary, green, settings, store, today, weather

in_a_club = [
    *today.urlpatterns,
    *green.urlpatterns,
    *diary.urlpatterns,
    *settings.urlpatterns,
    *weather.urlpatterns,
    *store.urlpatterns,
]
