"""Taking away what is kept about oneself, and being erased."""

from django.contrib import messages
from django.contrib.auth import logout
from django.http import FileResponse
from django.shortcuts import redirect
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_GET, require_http_methods

from greens.actions import erasing
from greens.actions.people import NotPossible
from greens.forms.person import OwnPassword
from greens.queries import about_person
from greens.views.let_in import heard, shown
from greens.views.own import own_page


@own_page
@require_GET
def about_you(request):
    name = "about-you.zip"
    return FileResponse(about_person.packed(request.user), as_attachment=True, filename=name)


@sensitive_post_parameters("current")
@own_page
@require_http_methods(["GET", "POST"])
def erase(request):
    form = OwnPassword(request.POST or None, person=request.user)
    if heard(request, form, form.is_own) and erased(request, form):
        messages.success(request, "Nothing here says who you were any more.")
        return redirect("sign_in")
    return shown(request, form, "greens/you/erase.html", files=about_person.stored_by(request.user).count())


def erased(request, form) -> bool:
    try:
        erasing.erase(person=request.user)
    except NotPossible as refusal:
        form.add_error(None, str(refusal))
        return False
    logout(request)
    return True
