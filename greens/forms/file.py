"""Photographs and documents on their way in."""

from datetime import date

from django import forms

from greens.choices import FileKind
from greens.forms.sheet import DayField, Sheet
from greens.validators.attachment import prepare_attachment
from greens.validators.upload import NotKept, Prepared, prepare


class UploadField(forms.FileField):
    """One file, looked at by its content; cleans to what will be stored."""

    def __init__(self, *, kind: FileKind, **kwargs):
        self.kind = kind
        super().__init__(**kwargs)
        self.error_messages["required"] = "Choose a file."
        self.error_messages["missing"] = "No file came along; choose it again."
        self.error_messages["empty"] = "This file is empty."

    def clean(self, value, initial=None):
        upload = super().clean(value, initial)
        try:
            return self.prepared(upload) if upload else None
        except NotKept as refusal:
            raise forms.ValidationError(str(refusal)) from None

    def prepared(self, upload) -> Prepared:
        return prepare(upload, self.kind)


class AttachmentField(UploadField):
    """A photograph or a voice note, whichever its content is."""

    def __init__(self, **kwargs):
        super().__init__(kind=FileKind.PHOTOGRAPH, **kwargs)

    def prepared(self, upload) -> Prepared:
        return prepare_attachment(upload)


class AttachForm(forms.Form):
    """What a phone sends for an entry or a set: its own id, the file, and the id of the file itself."""

    of = forms.UUIDField()
    client_id = forms.UUIDField()
    file = AttachmentField()

    @property
    def in_words(self) -> dict[str, str]:
        """One sentence for each field that is wrong."""
        return {name: wrongs[0] for name, wrongs in self.errors.items()}


class Described(Sheet):
    """What is said of a file."""

    taken_on = DayField(label="Dated")
    caption = forms.CharField(label="What it shows", max_length=200, required=False)

    def __init__(self, *args, today: date, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["taken_on"].latest = today
        self.fields["taken_on"].initial = today


class PhotographForm(Described):
    upload = UploadField(
        kind=FileKind.PHOTOGRAPH,
        label="Photograph",
        help_text="JPEG, PNG or WebP. Where it was taken is removed from the file before it is kept.",
        widget=forms.FileInput(attrs={"accept": "image/jpeg,image/png,image/webp"}),
    )
    fixed_point = forms.CharField(
        label="Fixed point it was taken from",
        max_length=60,
        required=False,
        help_text="The same place each time shows how the green moves on.",
    )
    field_order = ["upload", "taken_on", "caption", "fixed_point"]


class DocumentForm(Described):
    upload = UploadField(
        kind=FileKind.DOCUMENT,
        label="Document",
        help_text="PDF or XLSX: drawings, laboratory sheets, certificates, the plan and file of the works.",
        widget=forms.FileInput(attrs={"accept": ".pdf,.xlsx"}),
    )
    field_order = ["upload", "taken_on", "caption"]


class SafetySheetForm(Described):
    upload = UploadField(
        kind=FileKind.DOCUMENT,
        label="Safety data sheet",
        help_text="PDF, as the maker gives it; keep the newest, and the label with it.",
        widget=forms.FileInput(attrs={"accept": ".pdf,.xlsx"}),
    )
    field_order = ["upload", "taken_on", "caption"]
