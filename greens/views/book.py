"""A club's own books: upload, columns, words, a look before anything is kept, progress, undo."""

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import book as actions
from greens.actions import book_keep as keeping
from greens.actions import book_undo
from greens.forms.book import AskedSheet, BookSheet, ColumnsSheet, KeepSheet, WordsSheet
from greens.queries import book as queries
from greens.queries import book_undo as brought
from greens.queries.book_words import Words
from greens.validators.upload import NotKept
from growin.agronomy.book_columns import is_enough
from growin.agronomy.plain_words import counted

BOOK = {"book_id": ("book", queries.one)}
THINGS = {"diary": "entries", "products": "products", "readings": "sets of readings"}


@door(Right.MANAGE)
def books(request, here):
    form = BookSheet(request.POST or None, request.FILES or None, initial={"kind": "diary"})
    if request.method == "POST" and form.is_valid():
        try:
            book = actions.take_in(club=here.club, by=here.member, **form.cleaned_data)
        except NotKept as refused:
            form.add_error("file", str(refused))
        else:
            return redirect("book_columns", here.club.slug, book.pk)
    return render(request, "greens/book/new.html", {"form": form, "books": queries.kept(here.club)})


@door(Right.MANAGE, **BOOK)
def book_columns(request, here, book):
    if book.is_settled:
        return redirect("book", here.club.slug, book.pk)
    form = ColumnsSheet(book, request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.set_columns(book=book, **form.agreed)
        return redirect("book_check", here.club.slug, book.pk)
    return show(request, "columns", book, form=form, rows=queries.first_rows(book))


@door(Right.MANAGE, **BOOK)
def book_check(request, here, book):
    if book.is_settled:
        return redirect("book", here.club.slug, book.pk)
    if not is_enough(book.kind, book.columns.values(), book.said_once):
        return redirect("book_columns", here.club.slug, book.pk)
    try:
        return ask(request, here, book) or look(request, here, book)
    except FileNotFoundError:
        return show(request, "refused", book, refused=keeping.GONE)


def ask(request, here, book) -> HttpResponse | None:
    """What has to be asked before it can be looked at, once; None when all is known."""
    if book.found:
        return None
    table = queries.table_of(book)
    asks = queries.order_of(book, table) is None, queries.comma_of(book, table) is None
    if any(asks):
        return ask_how(request, here, book, asks)
    unknown = Words(book).unknown(table)
    return ask_words(request, here, book, unknown) if unknown else None


def ask_how(request, here, book, asks: tuple[bool, bool]) -> HttpResponse:
    form = AskedSheet(*asks, request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.settle(book=book, **form.cleaned_data)
        return redirect("book_check", here.club.slug, book.pk)
    return show(request, "asked", book, form=form)


def ask_words(request, here, book, unknown: dict) -> HttpResponse:
    form = WordsSheet(book, unknown, request.POST or None)
    if request.method == "POST" and form.is_valid():
        actions.set_values(book=book, values=form.values)
        return redirect("book_check", here.club.slug, book.pk)
    return show(request, "words", book, form=form)


def look(request, here, book) -> HttpResponse:
    """What would happen, as the last look found it; a long book is looked at by the worker."""
    if book.is_looked_at and book.job.error:
        return show(request, "refused", book, refused=book.job.error)
    looks = not book.found or "again" in request.GET
    if looks and not (book.job and book.job.is_open):
        keeping.look_at_once_or_queue(book=book, by=here.member)
    if book.job and book.job.is_open:
        return show(request, "looking", book)
    form = KeepSheet(book.found["faults"], request.POST or None)
    if request.method == "POST" and form.is_valid() and book.found["new"]:
        keeping.queue_import(book=book, by=here.member)
        return redirect("book", here.club.slug, book.pk)
    return show(request, "check", book, form=form, found=book.found, is_fresh=keeping.is_fresh(book))


def show(request, page: str, book, **more) -> HttpResponse:
    new = book.result.get("new", 0)
    said = {"book": book, "things": THINGS[book.kind], "new": counted(new, THINGS[book.kind])}
    return render(request, f"greens/book/{page}.html", said | more)


@door(Right.MANAGE, **BOOK)
def book(request, here, book):
    if not book.imported_at and (not book.job or book.is_looked_at):
        return redirect("book_check", here.club.slug, book.pk)
    return show(request, "kept", book, has_unread=queries.place_of_unread(book).exists())


@door(Right.MANAGE, **BOOK)
def book_unread(request, here, book):
    """The rows that could not be kept, with the reason, for a spreadsheet."""
    content = queries.unread(book)
    if content is None:
        raise Http404
    answer = HttpResponse(content, content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="not-kept-{book.pk}.csv"'
    return answer


@door(Right.MANAGE, **BOOK)
def undo_book(request, here, book):
    if not book.is_kept:
        return redirect("book", here.club.slug, book.pk)
    if request.method == "POST":
        done = book_undo.undo(book=book, by=here.member)
        messages.success(request, said_of(done, THINGS[book.kind]))
        return redirect("book", here.club.slug, book.pk)
    counts = brought.counts(book)
    return show(request, "undo", book, counts=counts, taken=counted(counts["taken"], THINGS[book.kind]))


def said_of(done: dict[str, int], things: str) -> str:
    taken = f"{counted(done['taken'], things)} taken back"
    return (
        f"{taken}; {done['stays']} stay, because they were changed since." if done["stays"] else f"{taken}."
    )
