"""The statement for the committee: two pages to print or to send."""

from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import content_disposition_header
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from greens import units
from greens.access import Right, door
from growin.evidence.statement import statement_of
from growin.exports.press import PangoMissing
from growin.exports.statement import statement_pdf
from growin.forms.readiness import AsOf
from growin.queries.remembered import remembered


@door(Right.READ)
@require_safe
def statement(request, here, green):
    """As of ``?as_of``, else of today; where no rebuild was under way the readiness page says so."""
    as_of = AsOf(here.club.local_today(), {"on": request.GET.get("as_of")}).day
    made = statement_of(here.club, green, as_of)
    if made is None:
        return redirect(f"{reverse('readiness', args=[here.club.slug, green.pk])}?on={as_of}")
    what = ("statement", green.pk, as_of, units.active(), made.expected and made.expected.row.made_at)
    try:
        pdf = remembered(here.club, what, lambda: statement_pdf(made))
        return as_file(pdf, f"{slugify(f'{here.club.name} {green.name}')}-{as_of}.pdf")
    except PangoMissing:
        return render(request, "growin/statement/without_pango.html", {"green": green}, status=503)


def as_file(content: bytes, name: str) -> HttpResponse:
    """A PDF shown in the browser, under a name to keep it by."""
    headers = {"Content-Disposition": content_disposition_header(False, name)}
    return HttpResponse(content, content_type="application/pdf", headers=headers)
