"""A green's programme: its steps, its versions, its ladder of heights."""

from django.urls import path

from growin.views import answer, programme, step

HERE = "greens/<int:green_id>/programme/"
STEP = f"{HERE}steps/<str:key>/"

urlpatterns = [
    path(HERE, programme.programme, name="programme"),
    path(f"{HERE}draw/", programme.draw, name="draw_programme"),
    path(f"{HERE}redraw/", programme.redraw, name="redraw"),
    path(f"{HERE}heights.svg", programme.heights, name="ladder"),
    path(f"{HERE}versions/", programme.versions, name="programme_versions"),
    path(f"{HERE}versions/<int:number>/", programme.version, name="programme_version"),
    path(f"{HERE}add/", step.add, name="add_step"),
    path(STEP, step.step, name="step"),
    path(f"{STEP}change/", step.change, name="change_step"),
    path(f"{STEP}drop/", step.drop, name="drop_step"),
    path(f"{STEP}restore/", step.restore, name="restore_step"),
    path(f"{STEP}as-planned/", answer.as_planned, name="as_planned"),
    path(f"{STEP}done/", answer.tick, name="tick_step"),
    path(f"{STEP}not-done/", answer.not_done, name="not_done_step"),
    path(f"{STEP}weather/", answer.weather, name="weather_step"),
    path(f"{STEP}put-off/", answer.put_off, name="put_off_step"),
    path("greens/<int:green_id>/walked/", answer.walked, name="walked"),
]
