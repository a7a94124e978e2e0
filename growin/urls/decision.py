"""Decisions on play of one rebuild."""

from django.urls import path

from growin.views import decision

urlpatterns = [
    path("rebuilds/<int:establishment_id>/decisions/", decision.decisions, name="decisions"),
    path("rebuilds/<int:establishment_id>/decisions/new/", decision.decide, name="decide"),
    path("rebuilds/<int:establishment_id>/close/", decision.close, name="close_green"),
    path("decisions/", decision.all_decisions, name="all_decisions"),
    path("decisions/<int:decision_id>/", decision.decision, name="decision"),
]
