"""Addresses of the site (``site``), and those inside a club, one file per noun."""

from greens.urls import club, people

in_a_club = [*club.urlpatterns, *people.urlpatterns]
