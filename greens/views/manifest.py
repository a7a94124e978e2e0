"""The club's web app manifest, by which a phone puts Today on its home screen.

W3C, Web Application Manifest (https://www.w3.org/TR/appmanifest/), from memory.
"""

from django.http import JsonResponse
from django.templatetags.static import static
from django.urls import reverse

from greens.access import Right, door

#: Paper and ink of the page by day, as in ``ground.css``.
PAPER = "#fbf8f1"
#: So many letters stand whole under an icon of a home screen (common practice).
SHORT = 12
ICONS = (
    ("icon-192.png", 192, "any"),
    ("icon-512.png", 512, "any"),
    ("icon-maskable-512.png", 512, "maskable"),
)


@door(Right.READ)
def manifest(request, here):
    return JsonResponse(manifest_of(here.club), content_type="application/manifest+json")


def manifest_of(club) -> dict:
    """What the phone is told; signing in lies within the scope, so that it stays in the same window."""
    today, log = (reverse(name, args=[club.slug]) for name in ("today", "log"))
    return {
        "id": today,
        "name": f"{club.name}: the greens record",
        "short_name": shortened(club.name),
        "description": "The day's work on the greens, their readings and their diary.",
        "lang": "en-GB",
        "start_url": today,
        "scope": reverse("front"),
        "display": "standalone",
        "background_color": PAPER,
        "theme_color": PAPER,
        "icons": [icon(*one) for one in ICONS],
        "shortcuts": [
            {"name": "Log work", "url": log},
            {"name": "Take readings", "url": f"{today}#greens"},
        ],
    }


def icon(name: str, px: int, purpose: str) -> dict:
    return {"src": static(f"greens/{name}"), "sizes": f"{px}x{px}", "type": "image/png", "purpose": purpose}


def shortened(name: str) -> str:
    """The first words that fit under an icon; a long first word is cut."""
    words = name.split()
    fitting = [" ".join(words[:count]) for count in range(len(words), 0, -1)]
    return next((one for one in fitting if len(one) <= SHORT), name[:SHORT])
