"""Where a button leads back to: the page it stood on."""

from django.utils.http import url_has_allowed_host_and_scheme


def of_this_site(address: str) -> str:
    """An address that leads to a page of ours; empty for any other."""
    return address if address.startswith("/") and url_has_allowed_host_and_scheme(address, None) else ""


def came_from(request) -> str:
    """The page of this site that a tap came from; empty for any other."""
    return of_this_site(request.POST.get("back", ""))
