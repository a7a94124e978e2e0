"""Addresses of the site (``site``), and those inside a club, one file per noun."""

from greens.urls import book, club, feed, file, job, manifest, material, notice, people, record, store, token

in_a_club = [
    *club.urlpatterns,
    *book.urlpatterns,
    *people.urlpatterns,
    *record.urlpatterns,
    *material.urlpatterns,
    *file.urlpatterns,
    *store.urlpatterns,
    *job.urlpatterns,
    *manifest.urlpatterns,
    *notice.urlpatterns,
    *feed.urlpatterns,
    *token.urlpatterns,
]
