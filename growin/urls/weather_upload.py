"""Weather from a file."""

from django.urls import path

from growin.views import weather_upload as views

ONE = "weather/uploads/<int:upload_id>/"

urlpatterns = [
    path("weather/uploads/", views.weather_upload, name="weather_upload"),
    path(ONE, views.weather_upload_kept, name="weather_upload_kept"),
    path(f"{ONE}columns/", views.weather_upload_columns, name="weather_upload_columns"),
    path(f"{ONE}check/", views.weather_upload_check, name="weather_upload_check"),
    path(f"{ONE}undo/", views.weather_upload_undo, name="weather_upload_undo"),
]
