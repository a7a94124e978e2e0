"""Photographs and documents: in through a form, out through the club's door, inert."""

import re

from csp.constants import NONE
from csp.decorators import csp
from django.contrib import messages
from django.http import FileResponse, Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from greens.access import Right, door
from greens.actions import file as actions
from greens.choices import FileKind
from greens.forms.file import DocumentForm, PhotographForm, SafetySheetForm
from greens.queries import files

PART = re.compile(r"bytes=(\d{1,12})-(\d{0,12})")
INERT = {"default-src": [NONE], "sandbox": True}


@door(Right.MANAGE)
def photograph_new(request, here, green):
    return add(request, here, green, PhotographForm, FileKind.PHOTOGRAPH)


@door(Right.MANAGE)
def document_new(request, here, green):
    return add(request, here, green, DocumentForm, FileKind.DOCUMENT)


@door(Right.MANAGE)
def safety_sheet_new(request, here, product):
    """The sheet of the maker, kept with its product."""
    form = SafetySheetForm(request.POST or None, request.FILES or None, today=here.club.local_today())
    if request.method == "POST" and form.is_valid():
        said = {"kind": FileKind.DOCUMENT, "product": product, **form.cleaned_data}
        try:
            actions.store_file(club=here.club, by=here.member, **said)
        except actions.NotKept as refusal:
            form.add_error("upload", str(refusal))
        else:
            messages.success(request, "The sheet is kept with its product.")
            return redirect("product", here.club.slug, product.pk)
    return render(request, "greens/file/safety_sheet.html", {"form": form, "product": product})


def add(request, here, green, form_class, kind: FileKind):
    form = form_class(request.POST or None, request.FILES or None, today=here.club.local_today())
    if request.method == "POST" and form.is_valid():
        try:
            actions.store_file(club=here.club, by=here.member, kind=kind, green=green, **form.cleaned_data)
        except actions.NotKept as refusal:
            form.add_error("upload", str(refusal))
        else:
            messages.success(request, f"The {kind.label.lower()} is kept.")
            return redirect("record", here.club.slug, green.pk)
    return render(request, "greens/file/add.html", {"form": form, "green": green, "kind": kind})


@csp(INERT)
@door(Right.READ)
def file(request, here, stored_file):
    return part_asked(request, answer(stored_file, small=False), stored_file.kind)


@csp(INERT)
@door(Right.READ)
def file_small(request, here, stored_file):
    return answer(stored_file, small=stored_file.kind == FileKind.PHOTOGRAPH)


def part_asked(request, response: FileResponse, kind: str):
    """The one part of a voice note that a player asks for (RFC 9110, 14.2); else the whole answer."""
    found = PART.fullmatch(request.headers.get("Range", ""))
    if kind != FileKind.VOICE:
        return response
    response["Accept-Ranges"] = "bytes"
    whole = int(response["Content-Length"])
    first, last = (int(found[1]), min(int(found[2] or whole - 1), whole - 1)) if found else (0, -1)
    if not first <= last:
        return response
    with response.file_to_stream as kept:  # the answer itself is not closed: that would end the request
        kept.seek(first)
        part = HttpResponse(kept.read(last - first + 1), status=206, headers=response.headers)
    part["Content-Range"], part["Content-Length"] = f"bytes {first}-{last}/{whole}", last - first + 1
    return part


def answer(stored_file, small: bool):
    """The bytes as they were kept: photographs and voice notes as such, documents to save, none to be run."""
    try:
        content = files.place_of(stored_file, small).open()
    except FileNotFoundError:
        raise Http404 from None
    response = FileResponse(
        content,
        as_attachment=stored_file.kind == FileKind.DOCUMENT,
        filename=stored_file.name,
        content_type=stored_file.content_type,
    )
    response["X-Content-Type-Options"] = "nosniff"
    response["Cross-Origin-Resource-Policy"] = "same-origin"
    return response


@door(Right.MANAGE)
def file_remove(request, here, stored_file):
    green, product = stored_file.green, stored_file.product
    if request.method == "POST":
        actions.remove_file(stored_file=stored_file, by=here.member)
        messages.success(request, "It is removed; that it was there stays in the record of changes.")
        return redirect(came_from_record(here, green, product))
    return render(request, "greens/file/remove.html", {"stored_file": stored_file, "green": green})


def came_from_record(here, green, product) -> str:
    """The page that the file stood on."""
    if product:
        return reverse("product", args=[here.club.slug, product.pk])
    return (
        reverse("record", args=[here.club.slug, green.pk])
        if green
        else reverse("greens", args=[here.club.slug])
    )
