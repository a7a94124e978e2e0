"""Addresses of the site itself: signing in, invitations, passwords, ending all mail."""

from django.urls import path

from greens.views import person, wish

urlpatterns = [
    path("", person.front, name="front"),
    path("sign-in/", person.sign_in, name="sign_in"),
    path("sign-out/", person.sign_out, name="sign_out"),
    path("new-password/", person.ask_reset, name="ask_reset"),
    path("new-password/<str:secret>/", person.set_password, name="set_password"),
    path("invitation/<str:secret>/", person.take_up, name="take_up"),
    path("no-more-mail/<str:token>/", wish.no_more_mail, name="no_more_mail"),
]
