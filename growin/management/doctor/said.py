"""What the environment says of the site, examined."""

from urllib.parse import urlsplit

from django.conf import settings
from django.core.checks import WARNING, run_checks
from django.http.request import validate_host

from growin.management.doctor.finding import Finding, fine, is_laptop, wrong

LEAST_KEY_LETTERS, LEAST_DIFFERENT = 50, 10
A_KEY = "Set GREENS_SECRET_KEY to what python -c 'import secrets; print(secrets.token_urlsafe(50))' prints."


def secret_key() -> Finding:
    key = settings.SECRET_KEY
    if is_laptop():
        return fine("the site is this machine's alone")
    if len(key) < LEAST_KEY_LETTERS or len(set(key)) < LEAST_DIFFERENT:
        return wrong(f"The secret key has {len(key)} letters, {len(set(key))} of them different.", A_KEY)
    return fine("long and of its own")


def debugging() -> Finding:
    if settings.DEBUG and not is_laptop():
        return wrong("Pages that break show their innards to everybody.", "Leave GREENS_DEBUG unset.")
    return fine("on, on this machine alone" if settings.DEBUG else "off")


def https() -> Finding:
    if settings.SITE_URL.startswith("https://"):
        return fine(f"the address is {settings.SITE_URL}")
    if is_laptop():
        return fine("not needed on this machine alone")
    return wrong(
        f"The address is {settings.SITE_URL}: passwords travel in the open, and phones keep nothing.",
        "End TLS in front of the site, and set GREENS_SITE_URL to its https:// address.",
    )


def names() -> Finding:
    """Whether the site answers to the name that stands in its own mails, and to no others."""
    host = urlsplit(settings.SITE_URL).hostname or ""
    if "*" in settings.ALLOWED_HOSTS:
        return wrong("The site answers to every name.", f"Set GREENS_HOSTS to {host}.")
    if not validate_host(host, settings.ALLOWED_HOSTS):
        return wrong(
            f"Links in mails lead to {host}, and the site does not answer to that name.",
            f"Add {host} to GREENS_HOSTS.",
        )
    return fine(", ".join(settings.ALLOWED_HOSTS))


def rules() -> Finding:
    """What Django itself has to say, with its checks for a site on the network."""
    found = [one for one in run_checks(include_deployment_checks=not is_laptop()) if one.level >= WARNING]
    said = [f"{one.id}: {one.msg.partition('. ')[0]}" for one in found if not one.is_silenced()]
    return (
        wrong("; ".join(said), "See manage.py check --deploy.") if said else fine("Django has no objection")
    )


def today() -> Finding:
    if settings.FIXED_TODAY and not is_laptop():
        return wrong(f"Today stands still at {settings.FIXED_TODAY}.", "Leave GREENS_TODAY unset.")
    return fine(f"fixed at {settings.FIXED_TODAY}" if settings.FIXED_TODAY else "of the clock")
