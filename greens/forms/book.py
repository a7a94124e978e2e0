"""A club's own book: the file, what its columns hold, what was asked of days and figures, what words mean."""

from crispy_forms.layout import Div, Fieldset, Layout
from django import forms

from greens.choices import BookKind
from greens.forms.sheet import LongSelect, Sheet
from greens.models import Book
from greens.queries import book_words
from growin.agronomy.book_cells import AMOUNT_UNITS, COMMA, POINT
from growin.agronomy.book_columns import BOOKS, DIARY, SAID_ONCE, WANTED, column
from growin.agronomy.plain_words import counted
from growin.agronomy.weather_cells import DAY_FIRST, MONTH_FIRST

NOT_READ = ("", "not read")
BY_COLUMN = ("", "each row says it")
#: Words asked about on one page.
MOST_WORDS = 60


class BookSheet(Sheet):
    kind = forms.ChoiceField(label="It is a", choices=BookKind.choices, widget=forms.RadioSelect)
    file = forms.FileField(
        label="File",
        help_text="CSV or XLSX. Titles above the table may stay. Nothing is kept before you have seen it.",
        widget=forms.FileInput(attrs={"accept": ".csv,.txt,.xlsx"}),
        error_messages={"empty": "This file is empty; it should have a row of headers and rows below it."},
    )
    sheet = forms.CharField(
        label="Name of the sheet",
        required=False,
        max_length=60,
        help_text="Of a workbook with several; left blank, the likeliest is read.",
    )


class ColumnsSheet(Sheet):
    """What each column of theirs holds, and what no column says."""

    def __init__(self, book: Book, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.book = book
        choices = [NOT_READ, *((one.key, one.header) for one in BOOKS[book.kind] if not one.is_out_only)]
        for place, header in enumerate(book.headers):
            self.fields[f"column_{place}"] = forms.ChoiceField(
                label=header,
                choices=choices,
                required=False,
                widget=LongSelect,
                initial=book.columns.get(str(place), ""),
            )
        columns = list(self.fields)
        for key in SAID_ONCE[book.kind]:
            self.fields[f"once_{key}"] = self.said_once(key)
        self.add_others()
        once = [name for name in self.fields if name not in columns]
        self.helper.layout = Layout(
            Fieldset("Their columns", Div(*columns, css_class="beside")),
            Fieldset("What no column says", *once),
        )

    def said_once(self, key: str) -> forms.ChoiceField:
        header = column(self.book.kind, key).header
        return forms.ChoiceField(
            label=f"{header}, the same in all rows",
            choices=[BY_COLUMN, *book_words.choices(self.book.club, self.book.kind, key)],
            required=False,
            initial=self.book.said_once.get(key, ""),
        )

    def add_others(self) -> None:
        if self.book.kind == DIARY:
            self.fields["amount_unit"] = forms.ChoiceField(
                label="Amounts without a unit are in",
                choices=[("", "no unit: say it in each row"), *((unit, unit) for unit in AMOUNT_UNITS)],
                required=False,
                initial=self.book.said_once.get("amount.unit", ""),
            )
        if "on" in WANTED[self.book.kind]:
            self.fields["fills_down"] = forms.BooleanField(
                label="Where the day is blank, it is that of the row above",
                required=False,
                initial=self.book.fills_down,
            )

    def clean(self):
        cleaned = super().clean()
        taken: dict[str, str] = {}
        for place, header in enumerate(self.book.headers):
            key = cleaned.get(f"column_{place}")
            if key in taken and not column(self.book.kind, key).many:
                self.add_error(f"column_{place}", f"“{taken[key]}” holds this already.")
            elif key:
                taken[key] = header
        missing = [key for key in WANTED[self.book.kind] if key not in {*taken, *self.once(cleaned)}]
        names = ", ".join(column(self.book.kind, key).header.lower() for key in missing)
        if missing and not self.errors:
            raise forms.ValidationError(f"Say which column holds this, or say it for all rows: {names}.")
        return cleaned

    def once(self, cleaned: dict) -> dict[str, str]:
        said = {key: cleaned.get(f"once_{key}", "") for key in SAID_ONCE[self.book.kind]}
        said["amount.unit"] = cleaned.get("amount_unit", "")
        return {key: value for key, value in said.items() if value}

    @property
    def agreed(self) -> dict:
        """As the action takes it; what a column holds is not said once."""
        cleaned = self.cleaned_data
        columns = {place: cleaned.get(f"column_{place}", "") for place in range(len(self.book.headers))}
        once = {key: value for key, value in self.once(cleaned).items() if key not in columns.values()}
        return {"columns": columns, "said_once": once, "fills_down": cleaned.get("fills_down", False)}


class AskedSheet(Sheet):
    """Asked back, because the file does not tell: which of day and month comes first, what a comma does."""

    order = forms.ChoiceField(
        label="Days such as 04/05/2026 have first the",
        choices=[(DAY_FIRST, "day: this is 4 May"), (MONTH_FIRST, "month: this is 5 April")],
        widget=forms.RadioSelect,
    )
    comma = forms.ChoiceField(
        label="Figures such as 1,250 are",
        choices=[(POINT, "one thousand two hundred and fifty"), (COMMA, "one and a quarter")],
        widget=forms.RadioSelect,
    )

    def __init__(self, asks_order: bool, asks_comma: bool, *args, **kwargs):
        super().__init__(*args, **kwargs)
        for name, is_asked in (("order", asks_order), ("comma", asks_comma)):
            if not is_asked:
                self.leave_out(name)


class WordsSheet(Sheet):
    """What words of the book mean that nobody has said yet."""

    def __init__(self, book: Book, unknown: dict[str, list[str]], *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.names: dict[str, tuple[str, str]] = {}
        groups = [self.add_group(book, key, words) for key, words in unknown.items()]
        self.helper.layout = Layout(*groups)

    def add_group(self, book: Book, key: str, words: list[str]) -> Fieldset:
        choices = book_words.choices(book.club, book.kind, key)
        choices = [("", "say what it means"), *choices, (book_words.LEAVE_OUT, "leave out such rows")]
        names = [self.add_word(key, n, word, choices) for n, word in enumerate(words[:MOST_WORDS])]
        return Fieldset(column(book.kind, key).header, *names)

    def add_word(self, key: str, number: int, word: str, choices: list) -> str:
        name = f"{key}_{number}"
        self.names[name] = key, word
        self.fields[name] = forms.ChoiceField(
            label=f"“{word[:60]}”",
            choices=choices,
            widget=LongSelect,
            error_messages={"required": "Say what it means, or leave such rows out."},
        )
        return name

    @property
    def values(self) -> dict[str, dict[str, str]]:
        """Meaning by word as it is compared, by column."""
        found: dict[str, dict[str, str]] = {}
        for name, (key, word) in self.names.items():
            meaning = self.cleaned_data[name]
            found.setdefault(key, {})[book_words.as_compared(key, word)] = meaning
        return found


class KeepSheet(Sheet):
    """What is agreed to before a book is kept: only where something is left out."""

    def __init__(self, faults: int, *args, **kwargs):
        super().__init__(*args, **kwargs)
        if faults:
            self.fields["leaves_out"] = forms.BooleanField(
                label=f"Leave out {counted(faults, 'rows')} that cannot be kept",
                error_messages={"required": "Tick this, or put the file right and upload it again."},
            )
