"""Sets of readings of a green."""

from django.urls import path

from growin.views import readings

urlpatterns = [
    path("greens/<int:green_id>/readings/", readings.readings, name="readings"),
    path("greens/<int:green_id>/readings/new/", readings.choose, name="choose_measure"),
    path("greens/<int:green_id>/readings/new/<slug:measure>/", readings.take, name="take_reading"),
    path("greens/<int:green_id>/readings/<slug:measure>/line.svg", readings.picture, name="reading_line"),
    path("readings/new/", readings.choose_any, name="choose_any_measure"),
    path("readings/new/<slug:measure>/", readings.take_on_a_green, name="take_on_a_green"),
    path("readings/<int:reading_id>/", readings.reading, name="reading"),
    path("readings/<int:reading_id>/map.svg", readings.map_picture, name="reading_map"),
    path("readings/<int:reading_id>/correct/", readings.correct, name="correct_reading"),
    path("readings/<int:reading_id>/take-back/", readings.take_back, name="take_back_reading"),
    path("readings/<int:reading_id>/answers/", readings.answer, name="answer_by_reading"),
]
