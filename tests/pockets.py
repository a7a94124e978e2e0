"""What a phone sends of a form that it kept: the form itself, and the lines at its head."""

from uuid import uuid4


def head(member, number, *, when="later", kept="2026-04-16T10:00:00Z", clock="") -> dict[str, str]:
    """The lines at the head; ``clock`` is what the phone's own clock says now."""
    lines = {"X-Pocket": when, "X-Pocket-Id": str(number), "X-Pocket-Member": str(member.pk)}
    return lines | {"X-Pocket-Kept": kept} | ({"X-Pocket-Clock": clock} if clock else {})


def sent(client, path: str, form: dict, member, number=None, **more):
    """The site's answer to a form kept under ``number``."""
    number = number or form.get("client_id") or uuid4()
    return client.post(path, form | {"client_id": str(number)}, headers=head(member, number, **more))
