"""Weather from a file: upload, columns, a look before anything is kept, progress, undo."""

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import weather_upload as actions
from greens.queries import weather_upload as queries
from greens.validators.upload import NotKept
from growin.agronomy.plain_words import counted
from growin.agronomy.weather_columns import is_enough
from growin.agronomy.weather_day import WEATHER
from growin.agronomy.weather_table import NotDaily
from growin.forms.weather_upload import AgreeSheet, ColumnsSheet, UnitSheet, UploadSheet

UPLOAD = {"upload_id": ("upload", queries.one)}
ROWS_SHOWN = 4


@door(Right.LOG)
def weather_upload(request, here):
    form = UploadSheet(request.POST or None, request.FILES or None)
    if request.method == "POST" and form.is_valid():
        try:
            upload = actions.take_in(club=here.club, by=here.member, **form.cleaned_data)
        except NotKept as refused:
            form.add_error("file", str(refused))
        else:
            page = "weather_upload_check" if is_enough(upload.columns) else "weather_upload_columns"
            return redirect(page, here.club.slug, upload.pk)
    shown = {"form": form, "uploads": queries.kept(here.club)}
    return render(request, "growin/weather_upload/new.html", shown)


@door(Right.LOG, **UPLOAD)
def weather_upload_columns(request, here, upload):
    if upload.is_settled:
        return redirect("weather_upload_kept", here.club.slug, upload.pk)
    now = queries.columns_of(upload), upload.order
    form = ColumnsSheet(upload.headers, *now, request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.set_columns(upload=upload, columns=form.columns, order=form.cleaned_data["order"])
        return redirect("weather_upload_check", here.club.slug, upload.pk)
    shown = {"form": form, "upload": upload, "rows": queries.first_rows(upload, ROWS_SHOWN)}
    return render(request, "growin/weather_upload/columns.html", shown)


@door(Right.LOG, **UPLOAD)
def weather_upload_check(request, here, upload):
    if upload.is_settled:
        return redirect("weather_upload_kept", here.club.slug, upload.pk)
    if not is_enough(upload.columns):
        return redirect("weather_upload_columns", here.club.slug, upload.pk)
    try:
        checked = queries.checked(upload)
    except NotDaily as refused:
        return show(request, "refused", upload, refused=str(refused))
    except FileNotFoundError:
        return show(request, "refused", upload, refused=actions.GONE)
    return ask_unit(request, here, checked) if checked.days.doubt else ask_all(request, here, checked)


def ask_unit(request, here, checked) -> HttpResponse:
    upload, form = checked.upload, UnitSheet(request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.settle_unit(upload=upload, **form.cleaned_data)
        return redirect("weather_upload_check", here.club.slug, upload.pk)
    return show(request, "unit", upload, form=form, checked=checked)


def ask_all(request, here, checked) -> HttpResponse:
    upload, form = checked.upload, AgreeSheet(checked, request.POST or None)
    if request.method == "POST" and form.is_valid() and not checked.changes_nothing:
        actions.queue_import(upload=upload, by=here.member, **form.agreed)
        return redirect("weather_upload_kept", here.club.slug, upload.pk)
    return show(request, "check", upload, form=form, checked=checked, fields=WEATHER)


def show(request, page: str, upload, **more) -> HttpResponse:
    return render(request, f"growin/weather_upload/{page}.html", {"upload": upload, **more})


@door(Right.LOG, **UPLOAD)
def weather_upload_kept(request, here, upload):
    if not upload.job and not upload.imported_at:
        return redirect("weather_upload_check", here.club.slug, upload.pk)
    return show(request, "kept", upload, may_undo=here.may_correct(upload))


@door(Right.LOG, **UPLOAD)
def weather_upload_undo(request, here, upload):
    here.must_correct(upload)
    if request.method == "POST":
        days = actions.undo(upload=upload, by=here.member)
        messages.success(request, f"{counted(days, 'days')} taken back; the record is as it was before.")
        return redirect("weather_upload", here.club.slug)
    return show(request, "undo", upload)
