"""All addresses: the site's own, then everything under a club's name."""

from django.urls import include, path

import greens.urls
import growin.urls

handler400 = "greens.views.refused.not_understood"
handler404 = "greens.views.refused.not_found"
handler403 = "greens.views.refused.not_allowed"
handler500 = "greens.views.refused.broken"

urlpatterns = [
    path("", include("greens.urls.site")),
    path("", include("greens.urls.you")),
    path("", include("growin.urls.site")),
    path("clubs/<slug:club_slug>/", include(greens.urls.in_a_club)),
    path("clubs/<slug:club_slug>/", include(growin.urls.in_a_club)),
]
