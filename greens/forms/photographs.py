"""Several photographs at once, each looked at by its content."""

from django import forms

from greens.choices import FileKind
from greens.forms.file import UploadField

MOST_AT_ONCE = 12


class ManyFiles(forms.FileInput):
    allow_multiple_selected = True


class PhotographsField(UploadField):
    """None, one or several photographs; cleans to a list of what will be stored."""

    def __init__(self, **kwargs):
        kwargs.setdefault("widget", ManyFiles(attrs={"accept": "image/jpeg,image/png,image/webp"}))
        kwargs.setdefault("label", "Photographs")
        super().__init__(kind=FileKind.PHOTOGRAPH, required=False, **kwargs)

    def clean(self, value, initial=None):
        uploads = [one for one in value or [] if one] if isinstance(value, list | tuple) else [value]
        if len(uploads) > MOST_AT_ONCE:
            raise forms.ValidationError(
                f"These are {len(uploads)} photographs; at most {MOST_AT_ONCE} can be sent at once."
            )
        kept = (super(PhotographsField, self).clean(one, initial) for one in uploads)
        return [one for one in kept if one]
