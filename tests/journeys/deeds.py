"""What people do on the site, each deed as they would say it; every page is a phone in somebody's hand."""

import re

from playwright.sync_api import Locator, Page, expect

from growin.agronomy.measure import SHAPE_YES_NO, Measure
from tests.cast import PASSWORD

MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def sign_in(page: Page, email: str) -> None:
    page.get_by_label("E-mail").fill(email)
    page.get_by_label("Password").fill(PASSWORD)
    press(page, "Sign in")


def press(place: Page | Locator, name: str) -> None:
    place.get_by_role("button", name=name, exact=True).tap()


def follow(place: Page | Locator, name: str) -> None:
    place.get_by_role("link", name=name, exact=True).first.tap()


def way(page: Page, name: str) -> None:
    """One of the five ways at the foot of a phone."""
    follow(page.get_by_role("navigation", name="Main"), name)


def fill(place: Page | Locator, values: dict[str, object]) -> None:
    for label, value in values.items():
        box(place, label).fill(str(value))


def box(place: Page | Locator, label: str) -> Locator:
    """The box beside a label, which may say after it that it can be left empty."""
    return place.get_by_label(re.compile(rf"^{re.escape(label)}( \(optional\))?$"))


def part(page: Page, name: str) -> Locator:
    """A part of a form under its own heading."""
    return page.get_by_role("group", name=name, exact=True)


def said(page: Page, words: str) -> None:
    expect(page.get_by_role("main")).to_contain_text(words)


# ---- the head greenkeeper ---------------------------------------------------------------------------


def enter_normals(page: Page, means_c: tuple[float, ...]) -> None:
    way(page, "Club")
    follow(page, "Enter the normals")
    fill(page, {f"{month}, mean": mean for month, mean in zip(MONTHS, means_c, strict=True)})
    press(page, "Keep the normals")


def enter_green(page: Page, name: str, position: int) -> None:
    way(page, "Greens")
    follow(page, "Enter a green")
    fill(page, {"Name": name, "Number on the card": position, "Distance to the nearest surface water": 60})
    press(page, "Keep")


def measure_by_radii(page: Page, radii_m: list[float]) -> None:
    follow(page, "Enter the area")
    follow(page, "Radii from a centre at equal angles")
    fill(page, {"Radii, m": " ".join(map(str, radii_m))})
    press(page, "Keep")


def enter_rebuild(page: Page, kind: str, species: str, begun: str, laid: str) -> None:
    follow(page, "Enter the rebuild")
    fill(page, {"Works started on": begun, "Laid or sown on": laid})
    page.get_by_label(kind, exact=True).check()
    page.get_by_label(species, exact=True).check()
    press(page, "Keep")


def paste_levels(page: Page, levels_mm: dict[str, str]) -> None:
    follow(page, "Enter the layers")
    for layer, levels in levels_mm.items():
        fill(part(page, layer), {"Level readings, mm": levels})
    press(page, "Keep")


def enter_drains(page: Page, main: dict, laterals: dict) -> None:
    follow(page, "Enter the drains")
    fill(part(page, "Main drain"), main)
    fill(part(page, "Laterals"), laterals)
    press(page, "Keep")


def enter_turf(page: Page, turf: dict) -> None:
    follow(page, "Enter the turf")
    fill(page, turf)
    press(page, "Keep")


def draw_programme(page: Page, green: str) -> None:
    open_green(page, green)
    follow(page, "Its programme")
    press(page, "Draw the programme")


def open_green(page: Page, green: str) -> None:
    way(page, "Greens")
    follow(page, green)


# ---- the greenstaff ---------------------------------------------------------------------------------


def task(page: Page, green: str) -> Locator:
    """What the day's page asks on one green."""
    return page.get_by_role("region", name=re.compile(f"^{green}"))


def done_as_planned(page: Page, step: str, green: str) -> None:
    press(task(page, green), f"Done as planned : {step}, {green}")


def log_cut(page: Page, green: str, height_mm: float) -> int:
    """From the day's page to the kept entry; the number of taps, the box of the height counted as one."""
    most_used = page.get_by_role("navigation", name="Most used kinds of work")
    taps = [
        page.get_by_role("link", name="Log work"),
        most_used.get_by_role("link", name="Cut"),
        page.get_by_label(green, exact=True),
        box(page, "Height of cut on the bench"),
    ]
    for one in taps:
        one.tap()
    page.keyboard.type(f"{height_mm:g}")
    press(page, "Keep it")
    return len(taps) + 1


def log_not_done(page: Page, green: str) -> None:
    way(page, "Today")
    follow(page, "Log work")
    page.get_by_label(green, exact=True).check()
    press(page, "Not done: weather")


def take_readings(page: Page, measure: Measure, values: list) -> None:
    """One set, a tap or a figure a place; it starts where one chooses what was read."""
    follow(page, measure.words)
    for value in values:
        keys = ["yes" if value else "no"] if measure.shape == SHAPE_YES_NO else [*f"{value:g}", "Next"]
        for key in keys:
            page.get_by_role("button", name="point" if key == "." else key, exact=True).tap()
    press(page, "Keep the readings")
    said(page, "The readings are kept.")


# ---- the committee ----------------------------------------------------------------------------------


def ask_whether_it_may_open(page: Page, green: str) -> None:
    open_green(page, green)
    follow(page, "May it open?")


def decide(page: Page, pattern: str, present: str, reason: str = "") -> None:
    follow(page, "Enter a decision on play")
    page.get_by_label(pattern, exact=True).check()
    fill(page, {"Those present": present, "Reason": reason})
    press(page, "Keep the decision")
