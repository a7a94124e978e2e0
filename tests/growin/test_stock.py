"""The shed: what was counted, came, was drawn by the diary, and will not last for the next steps."""

from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from greens.actions.diary import take_back
from greens.actions.stock import note_stock
from greens.models import StockLine, TrailLine
from greens.queries import stock
from growin.actions.programme import issue_programme
from growin.queries.shortage import shortages, to_come
from tests.entries import at, label, logged

pytestmark = pytest.mark.django_db
KG = 1000


def feed(cast, name="Spring feed"):
    return label(cast, name, lines={"N_total": 12})


def fed(cast, one, kg: int, days_ago: int = 0):
    return logged(cast, "feed", on=cast.today - timedelta(days=days_ago), products=[(one, kg * KG)])


def noted(cast, one, kind: str, kg: int, days_ago: int = 0, **more):
    day = cast.today - timedelta(days=days_ago)
    return note_stock(product=one.product, by=cast.staff, kind=kind, on=day, amount=kg * KG, **more)


def left(cast, one) -> int | None:
    known = stock.of_product(one.product, cast.today)
    return known and known.amount / KG


def test_nothing_is_known_of_what_was_never_counted(cast):
    one = feed(cast)
    fed(cast, one, 20)
    assert left(cast, one) is None


def test_the_diary_draws_on_what_was_delivered(cast):
    one = feed(cast)
    noted(cast, one, "delivered", 100, days_ago=10)
    fed(cast, one, 20, days_ago=10)
    fed(cast, one, 5)
    assert left(cast, one) == 75


def test_an_entry_taken_back_puts_it_back(cast):
    one = feed(cast)
    noted(cast, one, "delivered", 100, days_ago=10)
    take_back(entry=fed(cast, one, 20), by=cast.head)
    assert left(cast, one) == 100


def test_work_logged_after_a_count_of_the_same_day_is_drawn_from_it(cast):
    one = feed(cast)
    fed(cast, one, 20)
    noted(cast, one, "counted", 70)
    fed(cast, one, 5)
    assert left(cast, one) == 65


def test_what_was_noted_by_mistake_is_taken_back_and_stays_in_the_record(cast, as_):
    one = feed(cast)
    row = noted(cast, one, "delivered", 500)
    place = at(cast, "take_back_stock", one.product.pk)
    for number in (row.pk, row.pk, "9" * 30, "x"):
        as_("staff").post(place, {"line": number})
    assert (left(cast, one), StockLine.objects.count()) == (None, 1)
    assert TrailLine.objects.filter(deed="Took back: delivered, 500 kg of Spring feed").count() == 1


def test_a_count_stands_for_all_before_it(cast):
    one = feed(cast)
    noted(cast, one, "delivered", 100, days_ago=10)
    fed(cast, one, 20, days_ago=3)
    noted(cast, one, "counted", 70, days_ago=3)
    fed(cast, one, 5, days_ago=1)
    noted(cast, one, "delivered", 25)
    assert left(cast, one) == 90


def test_more_drawn_than_there_was_is_said_and_not_hidden(cast, as_):
    one = feed(cast)
    noted(cast, one, "delivered", 10, days_ago=5)
    fed(cast, one, 20)
    assert left(cast, one) == -10
    page = as_("head").get(at(cast, "product", one.product.pk)).content.decode()
    assert "more was logged than was there; count it" in page


def test_another_club_draws_on_its_own_shed_only(cast):
    one = feed(cast)
    noted(cast, one, "delivered", 10)
    assert stock.of_club(cast.outsider.club, cast.today) == {}


def sent(**more) -> dict:
    return {"kind": "delivered", "on": "2026-04-16", "amount": "25", "lot": "", "use_by": "", **more}


def test_greenstaff_note_a_delivery_with_its_lot(cast, as_):
    one = feed(cast)
    place = at(cast, "note_stock", one.product.pk)
    answer = as_("staff").post(place, sent(amount="25,5", lot="L 17", use_by="2027-01-31"))
    row = StockLine.objects.get()
    assert (answer.status_code, row.amount, row.lot, row.by) == (302, 25_500, "L 17", cast.staff)
    assert TrailLine.objects.filter(deed="Delivered: 25.5 kg of Spring feed").exists()
    assert "25.5 kg in the shed" in as_("committee").get(at(cast, "store")).content.decode()


@pytest.mark.parametrize(
    ("differs", "field", "sentence"),
    [
        ({"amount": "0"}, "amount", "A delivery brings something; to say that nothing is left, count it."),
        ({"amount": "-3"}, "amount", "-3 kg cannot be right; it should lie between 0 and 500000 kg."),
        ({"amount": "much"}, "amount", "'much' is not a number; write it in figures, such as 12.5."),
        ({"kind": "stolen"}, "kind", "Select a valid choice. stolen is not one of the available choices."),
        ({"use_by": "2026-04-01"}, "use_by", "Wed 1 April 2026 lies before Thu 16 April 2026; it was past "
         "its day when it came."),
        ({"on": "2026-04-17"}, "on", "Fri 17 April 2026 lies in the future; the latest day possible is "
         "Thu 16 April 2026."),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_beside_its_field(cast, as_, differs, field, sentence):
    one = feed(cast)
    page = as_("staff").post(at(cast, "note_stock", one.product.pk), sent(**differs))
    assert page.context["form"].errors[field] == [sentence]
    assert not StockLine.objects.exists()


def test_that_nothing_is_left_is_a_count(cast):
    one = feed(cast)
    noted(cast, one, "counted", 0)
    assert left(cast, one) == 0


def test_a_shed_nobody_counted_lacks_nothing(cast):
    feed(cast)
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    assert shortages(cast.club, cast.today) == []


def test_what_is_missing_for_the_next_steps_is_worked_out_step_by_step(cast):
    """6 kg N/ha over 450 m² is 2.25 kg of a 12 % feed."""
    one = feed(cast)
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    steps = [step for step in to_come(cast.club, cast.today) if step.unit == "kg N/ha"]
    needed = sum(round(step.amount / 10 * 450 / 0.12) for step in steps)
    assert needed > 0
    noted(cast, one, "counted", 1)
    (short,) = shortages(cast.club, cast.today)
    assert (short.product, short.first.key, short.missing) == (one.product, steps[0].key, needed - KG)
    noted(cast, one, "delivered", 500)
    assert shortages(cast.club, cast.today) == []


def test_a_product_that_nobody_counted_may_have_enough(cast):
    one = feed(cast)
    feed(cast, "Other feed")
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    noted(cast, one, "counted", 0)
    assert shortages(cast.club, cast.today) == []


def test_the_safety_sheet_of_the_maker_is_kept_with_its_product(cast, as_, settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    one = feed(cast)
    sheet = SimpleUploadedFile("feed.pdf", b"%PDF-1.7\n", "application/pdf")
    sent = {"upload": sheet, "taken_on": "2026-04-10", "caption": "Sheet of the maker"}
    place = at(cast, "safety_sheet_new", one.product.pk)
    assert [as_(who).get(place).status_code for who in ("staff", "committee")] == [403, 403]
    assert as_("head").post(place, sent).status_code == 302
    assert "Sheet of the maker" in as_("staff").get(at(cast, "product", one.product.pk)).content.decode()
    removed = as_("head").post(at(cast, "file_remove", one.product.files.get().pk))
    assert removed.headers["Location"] == at(cast, "product", one.product.pk)
