"""The door of pages that are about oneself."""

from functools import wraps

from django.contrib.auth.decorators import login_required
from django.core.exceptions import PermissionDenied
from django.views.decorators.cache import never_cache

from greens.queries import people


def own_page(view):
    """For the one who is signed in; a device that several use has no page of its own."""

    @never_cache
    @login_required
    @wraps(view)
    def guarded(request, *args, **kwargs):
        if people.is_shared_device(request.user):
            raise PermissionDenied
        return view(request, *args, **kwargs)

    return guarded
