"""The section of a build as a picture."""

from csp.constants import NONE, UNSAFE_INLINE
from csp.decorators import csp
from django.http import HttpResponse
from django.views.decorators.gzip import gzip_page

from greens.access import Right, door
from greens.queries import build, record
from growin.charts.section import section_svg

ONLY_ITS_OWN_STYLE = {"default-src": [NONE], "style-src": [UNSAFE_INLINE], "sandbox": True}


@gzip_page
@csp(ONLY_ITS_OWN_STYLE)
@door(Right.READ)
def section(request, here, establishment):
    row = record.with_build(here.club, establishment.pk)
    judged = build.judged(row, here.club.local_today())
    picture = section_svg(build.facts(row), judged.rows, build.turf_mm(row))
    return HttpResponse(picture, content_type="image/svg+xml")
