"""Days proposed for opening."""

from django.urls import path

from growin.views import proposal

urlpatterns = [
    path("rebuilds/<int:establishment_id>/propose/", proposal.propose, name="propose"),
    path("proposals/<int:proposal_id>/", proposal.proposal, name="proposal"),
    path("proposals/<int:proposal_id>/fan.svg", proposal.fan, name="fan"),
    path("proposals/<int:proposal_id>/withdraw/", proposal.withdraw, name="withdraw_proposal"),
]
