"""Everything of a club, to take away."""

from django.http import StreamingHttpResponse
from django.shortcuts import render

from greens.access import Right, door
from growin.exports import fair_copy as exports
from growin.queries import fair_copy as queries

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@door(Right.READ)
def fair_copy(request, here):
    return render(request, "growin/fair_copy/page.html", {"parts": queries.parts(here.club)})


@door(Right.READ)
def fair_copy_workbook(request, here):
    return sent(here.club, exports.as_workbook(queries.parts(here.club)), WORKBOOK, "xlsx")


@door(Right.READ)
def fair_copy_zip(request, here):
    return sent(here.club, exports.as_zip(queries.parts(here.club)), "application/zip", "zip")


def sent(club, pieces, content_type: str, ending: str) -> StreamingHttpResponse:
    answer = StreamingHttpResponse(pieces, content_type=content_type)
    name = f"{club.slug}-{club.local_today().isoformat()}.{ending}"
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer
