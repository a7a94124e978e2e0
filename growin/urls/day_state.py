"""How the greens stand today."""

from django.urls import path

from growin.views import day_state

urlpatterns = [
    path("day-states/", day_state.day_states, name="day_states"),
    path("greens/<int:green_id>/day-state/", day_state.set_day_state, name="set_day_state"),
]
