"""The letter that a mail is: text and HTML, its subject, its headers, its link that ends all mail."""

from datetime import date, timedelta
from urllib.parse import urlsplit

from django.conf import settings
from django.core import signing
from django.core.mail import EmailMultiAlternatives
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone

from greens.models import Mail, Membership, Notice
from growin.agronomy.plain_words import dated, day

NO_MORE = "no more mail"


def letter_of(mail: Mail) -> EmailMultiAlternatives | None:
    """The letter of a mail, the weightiest first; None where nothing that it carries holds any more."""
    rows = list(mail.notices.filter(lapsed_at=None).select_related("to", "green").order_by("weight", "pk"))
    if not rows:
        return None
    member = rows[0].to
    ends = address_of("no_more_mail", token_of(member)) if member else ""
    words = {
        "mail": mail,
        "notices": [(row, settings.SITE_URL + row.place if row.place else "") for row in rows],
        "period": period_words(mail),
        "wishes": address_of("wishes", mail.club.slug) if member else "",
        "no_more": ends,
    }
    with timezone.override(mail.club.zone):
        text = render_to_string("email/notices.txt", words)
        html = render_to_string("email/notices.html", words)
    letter = EmailMultiAlternatives(
        subject_of(mail, rows), text, settings.DEFAULT_FROM_EMAIL, [mail.person.email],
        headers=headers_of(mail, ends),
    )  # fmt: skip
    letter.attach_alternative(html, "text/html")
    return letter


def subject_of(mail: Mail, rows: list[Notice]) -> str:
    """ "Marram Links, Sat 28 November: Seventh: 2 steps due, and 3 more": the period, then the weightiest."""
    head = ", ".join(filter(None, [mail.club.name, period_words(mail)]))
    more = f", and {len(rows) - 1} more" if len(rows) > 1 else ""
    return " ".join(f"{head}: {rows[0].subject}{more}".split())


def period_words(mail: Mail) -> str:
    """The day or the week that a mail gathers; empty for one sent at once."""
    name, _, first = mail.period.partition(" ")
    if name == "day":
        return day(date.fromisoformat(first))
    if name == "week":
        began = date.fromisoformat(first)
        return f"{day(began)} to {dated(began + timedelta(days=6))}"
    return ""


def headers_of(mail: Mail, ends: str) -> dict[str, str]:
    """The same Message-ID for every try, so that a mailbox can tell a copy; all mail ends by one click.

    Source: RFC 8058 for the click, RFC 3834 for mail made by a machine.
    """
    host = urlsplit(settings.SITE_URL).hostname
    told = {"Message-ID": f"<mail-{mail.pk}@{host}>", "Auto-Submitted": "auto-generated"}
    if ends:
        told |= {"List-Unsubscribe": f"<{ends}>", "List-Unsubscribe-Post": "List-Unsubscribe=One-Click"}
    return told


def address_of(name: str, *args) -> str:
    """The whole address of a page of the site, as a letter needs it."""
    return settings.SITE_URL + reverse(name, args=args)


def token_of(member: Membership) -> str:
    """What the link that ends all mail carries: signed, so that nobody can make one for another."""
    return signing.dumps(member.pk, salt=NO_MORE)


def member_of(token: str) -> Membership | None:
    """Whom the link is for, while they belong to the club."""
    try:
        pk = signing.loads(token, salt=NO_MORE)
    except signing.BadSignature:
        return None
    return Membership.objects.select_related("club", "person").filter(pk=pk, ended_at=None).first()
