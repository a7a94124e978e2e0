"""What happened, as tables: one file per noun."""

from greens.models.advice import Advice
from greens.models.analysis import Analysis, AnalysisKind
from greens.models.area import Area
from greens.models.arrival import Arrival
from greens.models.attempt import Attempt
from greens.models.book import Book, BookHabit
from greens.models.club import Club
from greens.models.day_state import DayState
from greens.models.defect import Defect
from greens.models.device import Device
from greens.models.drain import Drain
from greens.models.entry import Entry, EntryGreen, EntryNutrient, EntryProduct, EntryRevision
from greens.models.establishment import Establishment
from greens.models.feed import Feed
from greens.models.green import Green
from greens.models.heartbeat import Heartbeat
from greens.models.irrigation import Irrigation
from greens.models.job import Job
from greens.models.label import Label, LabelLine
from greens.models.layer import Layer
from greens.models.link import Link
from greens.models.mail import Mail
from greens.models.material import Material
from greens.models.membership import Membership
from greens.models.normal import Normal
from greens.models.notice import Notice
from greens.models.person import Person
from greens.models.product import Product
from greens.models.reading import ReadingRevision, ReadingSet
from greens.models.second_step import SecondStep, SpareCode
from greens.models.seed_line import SeedLine
from greens.models.setting import Setting
from greens.models.stock import StockLine
from greens.models.stored_file import StoredFile
from greens.models.token import Token
from greens.models.trail import TrailLine
from greens.models.turf import Turf
from greens.models.weather_day import WeatherDay
from greens.models.weather_upload import WeatherUpload
from greens.models.wish import Wish

__all__ = [
    "Advice",
    "Analysis",
    "AnalysisKind",
    "Area",
    "Arrival",
    "Attempt",
    "Book",
    "BookHabit",
    "Club",
    "DayState",
    "Defect",
    "Device",
    "Drain",
    "Entry",
    "EntryGreen",
    "EntryNutrient",
    "EntryProduct",
    "EntryRevision",
    "Establishment",
    "Feed",
    "Green",
    "Heartbeat",
    "Irrigation",
    "Job",
    "Label",
    "LabelLine",
    "Layer",
    "Link",
    "Mail",
    "Material",
    "Membership",
    "Normal",
    "Notice",
    "Person",
    "Product",
    "ReadingRevision",
    "ReadingSet",
    "SecondStep",
    "SeedLine",
    "Setting",
    "SpareCode",
    "StockLine",
    "StoredFile",
    "Token",
    "TrailLine",
    "Turf",
    "WeatherDay",
    "WeatherUpload",
    "Wish",
]
