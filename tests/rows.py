"""One row of every noun for a club: something to show at every address, something for a leak to leak."""

from datetime import date, timedelta
from decimal import Decimal
from io import BytesIO

from django.utils import timezone
from PIL import Image

from greens import models as kept
from greens.actions import book as books
from greens.actions import book_keep as keeping
from greens.actions.weather_upload import take_in
from greens.choices import DayStateKind, FileKind, LayerKind, MaterialKind, NoticeKind, ProductKind, Role
from greens.models import Establishment, Membership
from greens.queries.files import place_of
from growin import models as planned
from growin.agronomy.defaults import COMMON_PRACTICE
from tests.books import csv_book
from tests.weather_files import csv_file

ON = date(2026, 4, 14)
A_SETTING = "criterion.rooting_turf.depth_mm"


def rows_of(by: Membership, establishment: Establishment) -> dict[str, object]:
    """What the words in an address may stand for in this club, by the word: ``{"entry_id": 3, …}``."""
    club, green = by.club, establishment.green
    label = feed(by)
    entry = feeding(by, establishment, label)
    readings = rooting(by, establishment)
    step = programme_step(by, establishment)
    decision = closed(by, establishment)
    surroundings(by, establishment)
    return {
        "club_slug": club.slug,
        "green_id": green.pk,
        "establishment_id": establishment.pk,
        "material_id": gravel(establishment).pk,
        "defect_id": defect(by, establishment).pk,
        "file_id": photograph(by, entry).pk,
        "member_id": by_name(club).pk,
        "product_id": label.product.pk,
        "label_id": label.pk,
        "entry_id": entry.pk,
        "reading_id": readings.pk,
        "step_id": step.pk,
        **dict.fromkeys(("step_key", "key"), step.key),
        "programme_id": step.programme.pk,
        "decision_id": decision.pk,
        "proposal_id": proposed(by, establishment).pk,
        "job_id": job(by).pk,
        "number": step.programme.number,
        "measure": readings.measure,
        "followed": firmness(by, establishment).measure,
        "sum_key": "product",
        "kind": entry.kind,
        "add_product.kind": label.product.kind,
        "setting.key": A_SETTING,
        "change_setting.key": A_SETTING,
        "day": ON,
        "element": "N",
        "analysis_id": soil_test(by, green).pk,
        "upload_id": weather_file(by).pk,
        "book_id": book(by).pk,
    }


def by_name(club) -> Membership:
    return Membership.objects.create(club=club, name="Old Wat", role=Role.STAFF)


def feed(by: Membership) -> kept.Label:
    """An 8-0-0 granular feed with its label."""
    product = kept.Product.objects.create(club=by.club, kind=ProductKind.GRANULAR, name="Spring 8-0-0")
    label = kept.Label.objects.create(product=product, revision=1, from_day=ON - timedelta(days=60), by=by)
    kept.LabelLine.objects.create(label=label, part="N_total", percent=8)
    return label


def feeding(by: Membership, establishment: Establishment, label: kept.Label) -> kept.Entry:
    """20 kg/ha of nitrogen on the whole green."""
    green = establishment.green
    entry = kept.Entry.objects.create(
        club=by.club,
        kind="feed",
        on=ON,
        done_by=by,
        logged_by=by,
        details={"form": "granular"},
        note="Light rain after",
    )
    kept.EntryGreen.objects.create(
        entry=entry,
        green=green,
        establishment=establishment,
        kind=entry.kind,
        on=ON,
        area_dm2=green.area_dm2,
    )
    line = kept.EntryProduct.objects.create(entry=entry, label=label, amount=11_250)
    kept.EntryNutrient.objects.create(product=line, element="N", mg_m2=2_000)
    return entry


def rooting(by: Membership, establishment: Establishment) -> kept.ReadingSet:
    return kept.ReadingSet.objects.create(
        club=by.club,
        green=establishment.green,
        establishment=establishment,
        measure="rooting_depth",
        on=ON,
        taken_by=by,
        logged_by=by,
        values=[45, 52, 60, 38, 55],
        places=[[0, 0], [4, 3], None, [-5, 2], [2, -6]],
    )


def firmness(by: Membership, establishment: Establishment) -> kept.ReadingSet:
    """One set of a measure that is followed over the years."""
    return kept.ReadingSet.objects.create(
        club=by.club,
        green=establishment.green,
        establishment=establishment,
        measure="hardness",
        on=ON,
        taken_by=by,
        logged_by=by,
        values=[78, 82, 80],
    )


def programme_step(by: Membership, establishment: Establishment) -> planned.ProgrammeStep:
    """A first programme with one feed, due on the day."""
    programme = planned.Programme.objects.create(establishment=establishment, number=1, issued_on=ON, by=by)
    return planned.ProgrammeStep.objects.create(
        programme=programme,
        key=f"feed-{by.club.slug}"[:60],
        kind="feed",
        earliest=ON - timedelta(days=3),
        likely=ON,
        latest=ON + timedelta(days=4),
        amount=20,
        unit="kg/ha N",
        what="Feed with 20 kg/ha of nitrogen",
        mark=COMMON_PRACTICE,
    )


def closed(by: Membership, establishment: Establishment) -> planned.Decision:
    return planned.Decision.objects.create(
        establishment=establishment,
        pattern=planned.Pattern.CLOSED,
        made_on=establishment.works_started_on,
        from_day=establishment.works_started_on,
        verdict="not met",
        evidence={},
        digest="0" * 64,
        by=by,
    )


def proposed(by: Membership, establishment: Establishment) -> planned.Proposal:
    return planned.Proposal.objects.create(
        establishment=establishment,
        opening_on=ON + timedelta(days=14),
        pattern=planned.Pattern.ALTERNATE,
        made_on=ON,
        verdict="not known",
        by=by,
    )


def soil_test(by: Membership, green) -> kept.Analysis:
    return kept.Analysis.objects.create(
        green=green,
        by=by,
        kind="soil",
        on=ON,
        extractant="mehlich_3",
        depth_mm=100,
        values={"K": 25, "pH": 6.4},
    )


def told(by: Membership) -> kept.Notice:
    """A notice that waits for its mail."""
    mail = kept.Mail.objects.create(
        club=by.club, person=by.person, key="at once 1", next_try_at=timezone.now()
    )
    return kept.Notice.objects.create(
        club=by.club, to=by, person=by.person, key="a notice", kind=NoticeKind.AGAINST,
        subject="Third is opened", text="From Saturday.", mail=mail,
    )  # fmt: skip


def secrets_of(by: Membership) -> None:
    """A calendar address and a token, whose secrets nobody knows."""
    kept.Feed.objects.create(member=by, secret_hash=f"feed of {by.pk}", made_at=timezone.now())
    kept.Token.objects.create(member=by, secret_hash=f"token of {by.pk}", name=f"Screen at {by.club.name}")


def foreseen(establishment: Establishment) -> planned.KeptForecast:
    """Ready one day in ten from the morrow on."""
    told = {
        "starts_on": ON.isoformat(),
        "season_ends_on": (ON + timedelta(days=200)).isoformat(),
        "holding_back": {"joints": 0.75, "gate": 0.25},
        "chances": [number / 10 for number in range(11)],
        "gate": {"day": ON.isoformat(), "words": "16 weeks down and the first of April."},
        "histories": 1,
        "weather_years": 0,
    }
    days = {f"p{number * 10}": ON + timedelta(days=number) for number in (1, 5, 9)}
    return planned.KeptForecast.objects.create(
        establishment=establishment,
        as_of=ON,
        mark=0,
        within_season=1,
        told=told,
        knew={"readings": 1},
        **days,
    )


def gravel(establishment: Establishment) -> kept.Material:
    """The gravel blanket of the build, levelled at three points."""
    club = establishment.green.club
    material = kept.Material.objects.create(club=club, kind=MaterialKind.GRAVEL, name="6 mm pea gravel")
    kept.Layer.objects.create(
        establishment=establishment, kind=LayerKind.GRAVEL, material=material, depths_mm=[100, 104, 98]
    )
    return material


def defect(by: Membership, establishment: Establishment) -> kept.Defect:
    return kept.Defect.objects.create(
        establishment=establishment,
        what="Joint open at the back",
        found_on=ON,
        due_on=ON + timedelta(days=21),
        by=by,
    )


def photograph(by: Membership, entry: kept.Entry) -> kept.StoredFile:
    """A stored picture, large and small, where the door looks for it."""
    row = kept.StoredFile.objects.create(
        club=by.club,
        green=entry.lines.get().green,
        entry=entry,
        kind=FileKind.PHOTOGRAPH,
        key=f"photograph-of-{by.club.slug}",
        name="front.jpg",
        content_type="image/jpeg",
        size_bytes=1_000,
        taken_on=ON,
        by=by,
    )
    picture = BytesIO()
    Image.new("RGB", (160, 120), "tan").save(picture, "JPEG")
    for small in (False, True):
        place_of(row, small).write_bytes(picture.getvalue())
    return row


def job(by: Membership) -> kept.Job:
    """A piece of long work that waits for its turn."""
    return kept.Job.objects.create(club=by.club, kind="import", heard_at=timezone.now(), by=by)


def surroundings(by: Membership, establishment: Establishment) -> None:
    """Advice, a state of the day, a day of weather, a notice, a forecast, a token and a calendar address."""
    green, club = establishment.green, by.club
    told(by)
    secrets_of(by)
    foreseen(establishment)
    kept.Advice.objects.create(green=green, on=ON, words="Keep the height until the joints hold.", by=by)
    kept.DayState.objects.create(green=green, on=ON, state=DayStateKind.RESTED, by=by)
    kept.WeatherDay.objects.create(
        club=club, on=ON, min_c=Decimal("3.5"), max_c=Decimal("11.2"), rain_mm=Decimal("1.4")
    )


def book(by: Membership) -> kept.Book:
    """A diary of one cut and one row that cannot be read, looked at and not kept."""
    green = by.club.greens.first().name
    file = csv_book("Date,Green,Work,Height", f"{ON},{green},Cut,8 mm", f"{ON},{green},Cut,none")
    one = books.take_in(club=by.club, by=by, kind="diary", file=file)
    keeping.look(one)
    return one


def weather_file(by: Membership) -> kept.WeatherUpload:
    """A file of one day that waits to be looked at."""
    file = csv_file("Date,Min °C,Max °C", f"{ON},2,9")
    return take_in(club=by.club, by=by, file=file)
