"""The club's day on a phone, over midnights and changes of the clock."""

import pytest

CLUB = "/clubs/marram-links"
DAYS = """async ([zone, today, madeAt, now]) => {
  Object.assign(document.documentElement.dataset, { zone, madeAt, today, source: "site" });
  const real = Date.now;
  Date.now = () => Date.parse(madeAt);
  const { dayNow } = await import(`/static/greens/js/pocket/here.js?${Math.random()}`);
  Date.now = () => Date.parse(now);
  const day = dayNow();
  Date.now = real;
  return day;
}"""
LONDON, AUCKLAND = "Europe/London", "Pacific/Auckland"


@pytest.mark.parametrize(
    ("zone", "today", "made", "now", "day"),
    [
        (LONDON, "2026-03-29", "2026-03-29T00:10:00Z", "2026-03-29T22:55:00Z", "2026-03-29"),
        (LONDON, "2026-03-29", "2026-03-29T00:10:00Z", "2026-03-29T23:05:00Z", "2026-03-30"),
        (LONDON, "2026-10-25", "2026-10-24T23:30:00Z", "2026-10-25T23:55:00Z", "2026-10-25"),
        (LONDON, "2026-10-25", "2026-10-24T23:30:00Z", "2026-10-26T00:05:00Z", "2026-10-26"),
        (AUCKLAND, "2026-04-05", "2026-04-04T12:00:00Z", "2026-04-05T11:55:00Z", "2026-04-05"),
        (AUCKLAND, "2026-09-27", "2026-09-26T13:00:00Z", "2026-09-27T11:05:00Z", "2026-09-28"),
    ],
)
def test_days_of_23_and_25_hours_end_at_the_clubs_midnight(enter, page, zone, today, made, now, day):
    """Clocks change on 29 March and 25 October 2026 in London, on 5 April and 27 September in Auckland:
    the tz database."""
    page.goto(enter("staff") + f"{CLUB}/today/")
    assert page.evaluate(DAYS, [zone, today, made, now]) == day
