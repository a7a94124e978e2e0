"""What a page tells the phone's pocket: whose it is, of which day, and where things are sent."""

from django import template
from django.forms.utils import flatatt
from django.urls import reverse
from django.utils import timezone

register = template.Library()


@register.simple_tag(takes_context=True)
def pocket_marks(context) -> str:
    """Attributes of the page for whoever logs work in a club; nothing for anybody else."""
    here = getattr(context.get("request"), "here", None)
    if here is None or not here.logs:
        return ""
    slug = here.club.slug
    return flatatt(
        {
            "data-source": "site",
            "data-club": slug,
            "data-member": str(here.member.pk),
            "data-name": here.member.name,
            "data-zone": here.club.time_zone,
            "data-today": here.club.local_today().isoformat(),
            "data-made-at": timezone.now().isoformat(timespec="milliseconds"),
            "data-list": reverse("pocket", args=[slug]),
            "data-attach": reverse("attach", args=[slug]),
            "data-pages": reverse("pocket_pages", args=[slug]),
        }
    )
