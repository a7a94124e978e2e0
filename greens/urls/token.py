"""Tokens of a member's programs."""

from django.urls import path

from greens.views import token

urlpatterns = [
    path("tokens/", token.tokens, name="tokens"),
    path("tokens/end/", token.end, name="end_token"),
]
