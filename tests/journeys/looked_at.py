"""What a look at a page in the browser finds."""

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
FINGER_PX = 44
SMALL_TARGETS = """least => [...document.querySelectorAll(
    "main button, main .button, main select, main textarea, main input:not([type=hidden]), nav a"
  )].map(one => [one, (one.closest("label") || one).getBoundingClientRect()])
    .filter(([one, box]) => box.height > 0 && box.height < least)
    .map(([one, box]) => `${one.localName} ${one.name || one.textContent.trim()}: ${box.height}`)"""


def barriers(page: Page) -> dict[str, list[str]]:
    """Rules of accessibility that a page breaks, each with the places."""
    found = Axe().run(page, options={"runOnly": {"type": "tag", "values": RULES}}).response["violations"]
    return {one["id"]: [", ".join(node["target"]) for node in one["nodes"]] for one in found}


def overflow_px(page: Page) -> int:
    """How far a page can be pushed sideways."""
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def small_targets(page: Page) -> list[str]:
    """Buttons, fields and ways on that a gloved finger would miss."""
    return page.evaluate(SMALL_TARGETS, FINGER_PX)
