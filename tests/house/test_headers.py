"""What every answer says to the browser, so that a page can neither be framed nor scripted."""

from io import BytesIO

import pytest
from django.test import Client
from django.urls import reverse

from greens.config.wsgi import application

WSGI = {"SERVER_NAME": "localhost", "SERVER_PORT": "80", "wsgi.input": BytesIO(), "wsgi.url_scheme": "http"}
POLICY = {
    "default-src": "'none'",
    "base-uri": "'none'",
    "connect-src": "'self'",
    "font-src": "'self'",
    "form-action": "'self'",
    "frame-ancestors": "'none'",
    "img-src": "'self'",
    "manifest-src": "'self'",
    "media-src": "'self'",
    "script-src": "'self'",
    "style-src": "'self'",
    "worker-src": "'self'",
}
SPOKEN = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
}


def policy(answer) -> dict[str, str]:
    parts = answer.headers["Content-Security-Policy"].split(";")
    return dict(part.strip().split(" ", 1) for part in parts)


@pytest.fixture
def answers(cast, as_, client):
    """A page to strangers, a page to members, a refusal and an address that does not exist."""
    slug = cast.club.slug
    return {
        "sign in": client.get(reverse("sign_in")),
        "today": as_("staff").get(reverse("today", args=[slug])),
        "refused": as_("staff").get(reverse("invite", args=[slug])),
        "nowhere": client.get("/nowhere/"),
    }


def test_scripts_styles_and_frames_come_from_us_alone(answers):
    assert {name: policy(answer) for name, answer in answers.items()} == dict.fromkeys(answers, POLICY)


def test_nothing_is_sniffed_framed_or_told_to_others(answers):
    spoken = {name: {key: answer.headers[key] for key in SPOKEN} for name, answer in answers.items()}
    assert spoken == dict.fromkeys(answers, SPOKEN)


def test_pages_of_a_club_are_never_kept_by_a_cache(answers):
    assert "no-store" in answers["today"].headers["Cache-Control"]


def test_the_session_is_out_of_reach_of_scripts(cast, client):
    cast.staff.person.set_password("a-dry-east-wind")
    cast.staff.person.save()
    form = {"email": cast.staff.person.email, "password": "a-dry-east-wind"}
    cookie = client.post(reverse("sign_in"), form).cookies["sessionid"]
    assert (cookie["httponly"], cookie["samesite"], cookie["path"]) == (True, "Lax", "/")


@pytest.mark.django_db
@pytest.mark.parametrize("charset", ["idna", "none-such", "utf-7", '"', ""])
def test_a_charset_of_no_form_of_ours_is_read_as_utf_8(charset):
    """The codec of "idna" raises wherever it meets a question, before anything could refuse it."""
    kind = f"application/x-www-form-urlencoded; charset={charset}"
    asked = {
        "CONTENT_TYPE": kind,
        "QUERY_STRING": "next=%C3%A9",
        "REQUEST_METHOD": "GET",
        "PATH_INFO": "/nowhere/",
    }
    said = []
    told = application({**WSGI, **asked}, lambda status, heads: said.append(status))
    told.close()
    assert said == ["404 Not Found"]


def test_a_form_from_elsewhere_is_refused_in_plain_words(cast):
    from_elsewhere = Client(enforce_csrf_checks=True)
    answer = from_elsewhere.post(reverse("sign_in"), {"email": "a@example.org", "password": "x"})
    assert (answer.status_code, "Nothing was saved" in answer.content.decode()) == (403, True)
