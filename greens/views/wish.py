"""What a member wishes to be told, and the link that ends all mail."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods

from greens.access import Right, door
from greens.actions import letter
from greens.actions import wish as actions
from greens.forms.wish import Wishes
from greens.queries import wish as queries


@door(Right.READ)
def wishes(request, here):
    form = Wishes(request.POST or None, member=here.member)
    if request.method == "POST" and form.is_valid():
        actions.change_wishes(member=here.member, **form.wishes())
        messages.success(request, "What you are told, and how soon, is kept.")
        return redirect("notices", here.club.slug)
    return render(request, "greens/wish/wishes.html", {"form": form})


@csrf_exempt
@never_cache
@require_http_methods(["GET", "POST"])
def no_more_mail(request, token):
    """By the signed link of a mail, without signing in; mailboxes send the POST by themselves (RFC 8058)."""
    member = letter.member_of(token)
    if member and request.method == "POST":
        actions.no_more_mail(member=member)
    context = {"member": member, "is_done": member and queries.of(member).no_mail_since is not None}
    return render(request, "greens/wish/no_more_mail.html", context, status=200 if member else 404)
