"""Where a button leads back to: the page it stood on."""

from django.utils.http import url_has_allowed_host_and_scheme


def came_from(request) -> str:
    """The page of this site that a tap came from; empty for any other."""
    back = request.POST.get("back", "")
    return back if back.startswith("/") and url_has_allowed_host_and_scheme(back, allowed_hosts=None) else ""
