"""What a look at a page in the browser finds; each finding is a sentence with its places."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

AXE = Axe().axe_script
RULES = {
    "type": "tag",
    "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
}
CONTRAST = {"type": "rule", "values": ["color-contrast"]}
FINGER_PX = 44
SMALL_TARGETS = """least => [...document.querySelectorAll(
    "main button, main .button, main select, main textarea, main input:not([type=hidden]), nav a"
  )].map(one => [one, (one.closest("label") || one).getBoundingClientRect()])
    .filter(([one, box]) => box.height > 0 && box.height < least)
    .map(([one, box]) => `${one.localName} ${one.name || one.textContent.trim()}: ${box.height} px high`)"""
PUSHED_SIDEWAYS_PX = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
MISSING_PICTURES = """() => Promise.all([...document.images].map(async (one) => {
    one.loading = "eager";
    await one.decode().catch(() => undefined);
    return one.naturalWidth > 0 ? [] : [`no picture: ${one.getAttribute("src")}`];
  })).then((found) => found.flat())"""


def misfits(page: Page) -> list[str]:
    """How far the page can be pushed sideways; what a gloved finger would miss."""
    wide = page.evaluate(PUSHED_SIDEWAYS_PX)
    return [f"{wide} px too wide"] * (wide > 0) + page.evaluate(SMALL_TARGETS, FINGER_PX)


def missing_pictures(page: Page) -> list[str]:
    """Pictures that did not arrive; those further down the page are called up first."""
    return page.evaluate(MISSING_PICTURES)


def barred(page: Page) -> list[str]:
    """Rules of accessibility that the page breaks by day, and words that cannot be read in the dark."""
    page.emulate_media(color_scheme="light")
    by_day = broken(page, RULES)
    page.emulate_media(color_scheme="dark")
    return by_day + [f"in the dark, {one}" for one in broken(page, CONTRAST)]


def broken(page: Page, rules: dict) -> list[str]:
    if page.evaluate("typeof window.axe") == "undefined":
        page.evaluate(AXE)
    asked = {"runOnly": rules, "resultTypes": ["violations"]}
    found = page.evaluate("asked => axe.run(asked)", asked)["violations"]
    return [f"{one['id']}: {node['target']}" for one in found for node in one["nodes"]]
