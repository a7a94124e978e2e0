"""With scripts switched off everything can still be written down."""

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

from greens.models import ReadingSet
from tests import entries


@pytest.fixture
def browser_context_args(browser_context_args):
    return browser_context_args | {"java_script_enabled": False}


@pytest.fixture
def at(phone: Page, enter, cast):
    """``at("log")`` opens that page of the club as a greenkeeper."""
    url = enter("staff")
    return lambda name, *args: phone.goto(url + reverse(name, args=[cast.club.slug, *args])) and phone


def test_a_feed_is_logged_with_its_product(at, cast):
    """9 kg of 8-0-0 on 450 m² are 20 g/m², so 16 kg/ha or 0.72 kg of nitrogen: by hand."""
    label = entries.label(cast, "Spring 8-0-0", lines={"N_total": 8})
    page = at("log_work", "feed")
    product = page.get_by_role("group", name="Product", exact=True)
    product.get_by_label("Product").select_option(str(label.pk))
    product.get_by_label("Amount").fill("9")
    product.get_by_label("In", exact=True).select_option("all")
    page.get_by_role("button", name="Keep it").click()
    expect(page.get_by_text("Kept.")).to_be_visible()
    expect(page.get_by_role("main")).to_contain_text("9 kg, 20 g/m² (200 kg/ha)")
    expect(page.get_by_role("main")).to_contain_text("N 16 kg/ha (0.72 kg)")


def test_a_set_of_readings_grows_by_boxes_that_the_server_adds(at, cast):
    page = at("take_reading", cast.green.pk, "rooting_depth")
    depths_mm = [62, 55, 71, 58, 66, 64]
    write(page, depths_mm[:5])
    page.get_by_role("button", name="More boxes").click()
    write(page, depths_mm)
    page.get_by_role("button", name="Keep the readings").click()
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    assert ReadingSet.objects.get().values == depths_mm


def write(page: Page, depths_mm: list[int]) -> None:
    for number, depth_mm in enumerate(depths_mm, start=1):
        page.get_by_label(f"core {number}", exact=True).fill(str(depth_mm))


def test_frames_of_cover_are_counted_point_by_point(at, cast):
    page = at("take_reading", cast.green.pk, "cover")
    page.get_by_label("Points in each frame").fill("25")
    for number in range(1, 11):
        page.get_by_label(f"frame {number}", exact=True).fill("24")
    page.get_by_role("button", name="Keep the readings").click()
    expect(page.get_by_role("main")).to_contain_text("240 of 250")


def test_a_refused_set_keeps_what_was_written(at, cast):
    page = at("take_reading", cast.green.pk, "rooting_depth")
    write(page, [62, 5000])
    page.get_by_role("button", name="Keep the readings").click()
    expect(page.get_by_role("alert").first).to_be_visible()
    expect(page.get_by_label("core 2", exact=True)).to_have_value("5000")
    assert not ReadingSet.objects.exists()
