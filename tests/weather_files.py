"""Files of weather for tests, as stations and people write them."""

from datetime import date, timedelta
from io import BytesIO

from django.core.files.uploadedfile import SimpleUploadedFile
from openpyxl import Workbook

HEADERS = "Date,Min °C,Max °C,Rain mm"


def csv_file(*lines: str, name: str = "station.csv", encoding: str = "utf-8") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, "\n".join(lines).encode(encoding), content_type="text/csv")


def season(first: date, days: int, headers: str = HEADERS) -> list[str]:
    """A row a day of mild dry weather under the headers."""
    return [headers, *(f"{first + timedelta(days=n)},4,12,0.2" for n in range(days))]


def workbook(*rows: tuple, name: str = "station.xlsx") -> SimpleUploadedFile:
    book, out = Workbook(), BytesIO()
    for row in rows:
        book.active.append(row)
    book.save(out)
    return SimpleUploadedFile(name, out.getvalue())
