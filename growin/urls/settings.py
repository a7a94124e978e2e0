"""Constants of the trade, and the club's own values for them."""

from django.urls import path

from growin.views import settings

urlpatterns = [
    path("settings/", settings.settings, name="settings"),
    path("settings/<str:key>/", settings.setting, name="setting"),
    path("settings/<str:key>/change/", settings.change_setting, name="change_setting"),
]
