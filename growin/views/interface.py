"""What programs may read: the answers, their description, and the page that explains both."""

from dataclasses import asdict, is_dataclass
from functools import wraps

from django.conf import settings
from django.core.exceptions import PermissionDenied
from django.http import Http404, JsonResponse
from django.shortcuts import render
from django.views.decorators.cache import cache_control, never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_safe

from greens.access import NoToken, Right, door, token_door
from greens.actions import token as actions
from greens.models import Token
from growin.interface.asked import NotUnderstood
from growin.interface.description import REFUSALS, path_of
from growin.interface.description import description as described
from growin.interface.endpoints import ENDPOINTS, Endpoint

READS = ("GET", "HEAD")
NOT_HERE = "There is no such thing in the club of this token."
FIRST_A_TOKEN = "Show a token that still holds: “Authorization: Bearer …”. A member makes one on the site."


class TooOften(Exception):
    """Asked more than a program needs; ``seconds`` until it is heard again."""

    def __init__(self, seconds: int):
        self.seconds = seconds


def refused(status: int, sentence: str, **heads: str) -> JsonResponse:
    answer = JsonResponse({"error": sentence}, status=status, json_dumps_params={"ensure_ascii": False})
    for name, value in heads.items():
        answer[name.replace("_", "-")] = value
    return answer


def in_json(view):
    """Whatever is refused is refused in JSON, with a sentence."""

    @csrf_exempt
    @never_cache
    @wraps(view)
    def answered(request, **address):
        if request.method not in READS:
            return refused(405, "Programs only read here: ask with GET.", Allow=", ".join(READS))
        try:
            return view(request, **address)
        except NoToken:
            return refused(401, FIRST_A_TOKEN, WWW_Authenticate="Bearer")
        except TooOften as wait:
            words = f"Asked too often; wait {wait.seconds} seconds."
            return refused(429, words, Retry_After=str(wait.seconds))
        except NotUnderstood as mistake:
            return refused(400, str(mistake))
        except PermissionDenied:
            return refused(403, "Your role does not allow this.")
        except Http404 as missing:
            return refused(404, str(missing) or NOT_HERE)

    return answered


def hear(token: Token) -> None:
    wait = actions.seconds_to_wait(token)
    if wait:
        raise TooOften(wait)


def plain(said) -> dict:
    """One thing, or a list of things with where to go on, as JSON takes it."""
    return asdict(said) if is_dataclass(said) else said | {"items": [asdict(row) for row in said["items"]]}


def view_of(one: Endpoint):
    """The view of one address of the table."""

    @in_json
    @token_door(Right.READ, hear)
    def answered(request, here, **rows):
        said = one.answer(here.club, request.GET, **rows)
        return JsonResponse(plain(said), json_dumps_params={"ensure_ascii": False})

    return answered


@in_json
def nowhere(request, rest: str):
    return refused(404, "There is no such address; the description lists them all.")


@require_safe
@cache_control(public=True, max_age=3600)
def description(request):
    return JsonResponse(described(), json_dumps_params={"ensure_ascii": False, "indent": 2})


@door(Right.READ)
def interface(request, here):
    context = {
        "addresses": [(one, path_of(one).replace("{club_slug}", here.club.slug)) for one in ENDPOINTS],
        "refusals": REFUSALS,
        "site": settings.SITE_URL,
        "most": settings.INTERFACE_QUESTIONS_A_MINUTE,
    }
    return render(request, "growin/interface/page.html", context)
