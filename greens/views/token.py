"""Tokens of a member's programs: made, shown once, ended."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.debug import sensitive_variables
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import token as actions
from greens.actions.people import NotPossible
from greens.forms.token import NewToken, asked_token
from greens.queries import token as queries


@door(Right.READ)
@sensitive_variables()
def tokens(request, here):
    """The secret stands in the answer to the form alone."""
    here.must_be_one_person()
    form, secret = NewToken(request.POST or None), ""
    if request.method == "POST" and form.is_valid():
        try:
            secret = actions.make_token(member=here.member, name=form.cleaned_data["name"])
            form = NewToken()
        except NotPossible as refusal:
            form.add_error(None, str(refusal))
    others = queries.of_others(here.member) if here.manages else ()
    context = {"form": form, "secret": secret, "tokens": queries.of(here.member), "others": others}
    return render(request, "greens/token/page.html", context)


@door(Right.READ)
@require_POST
def end(request, here):
    """A member ends their own, the head greenkeeper anybody's; any other number does nothing."""
    row = queries.one_to_end(here.member, asked_token(request.POST), any_member=here.manages)
    if row and actions.end_token(row=row, by=here.member):
        messages.success(request, f"The token “{row.name}” is ended; its program reads nothing more.")
    return redirect("tokens", here.club.slug)
