"""Logging without signal, for real: phones, a thin line, a site that is killed.

Nothing is lost, nothing doubled, nothing under the wrong day.
"""

import os
from uuid import uuid4

import pytest
from playwright.sync_api import expect

from tests.greens.test_file import photograph
from tests.journeys.pocket import (
    CLUB,
    CUT,
    ENTRIES,
    HAS_COPIES,
    PHONE,
    SLIPS,
    arrive,
    heights,
    log_cut,
    log_without_signal,
    sign_in,
    woken_by,
)  # fmt: skip
from tests.real_site import PROCESSES, until
from tests.services import free_port
from tests.thin_line import line_to

pytestmark = pytest.mark.skipif(not PROCESSES.is_dir(), reason="looks for processes as Linux keeps them")


def test_what_two_phones_logged_without_signal_arrives_once(site, phone_of):
    staff, head = phone_of("staff"), phone_of("head")
    log_without_signal(staff, "8", "7.5")
    log_without_signal(head, "7")
    assert site.ask(ENTRIES) == 0
    arrive(staff)
    arrive(head)
    assert heights(site) == [7, 7.5, 8]


def test_a_tap_of_the_day_waits_too_and_is_not_offered_twice(site, phone_of):
    page = phone_of()
    page.context.set_offline(True)
    page.goto(f"{CLUB}/today/")
    walked = page.get_by_role("button", name="Walked it, all well")
    walked.tap()
    expect(page.locator("[data-said]")).to_contain_text("Walked it, all well: Seventh, Thu 16 April")
    page.goto(f"{CLUB}/today/")
    expect(page.locator("form[data-waits] button")).to_be_hidden()
    arrive(page)
    assert site.ask("SELECT kind FROM greens_entry") == "walk"


def test_sets_of_readings_wait_one_after_the_other_with_their_photographs(site, phone_of):
    page = phone_of()
    page.context.set_offline(True)
    page.goto(f"{CLUB}/greens/1/readings/new/hole/")
    page.wait_for_url(f"**{CLUB}/readings/new/hole/?green=1")
    for answers in ("yyy", "yn"):
        for one in answers:
            page.locator(f'[data-answer="{"yes" if one == "y" else "no"}"]').tap()
        expect(page.locator("[data-taken] li")).to_have_count(len(answers))
        page.get_by_label("Photographs").set_input_files(
            {"name": f"{answers}.jpg", "mimeType": "image/jpeg", "buffer": photograph()}
        )
        page.locator("[data-keep]").tap()
        expect(page.locator("[data-said]")).to_contain_text("It is sent when there is signal")
        expect(page.locator("[data-taken] li")).to_have_count(0)
    arrive(page)
    with site.database() as database:
        kept = database.execute('SELECT "values" FROM greens_readingset').fetchall()
    assert {row[0] for row in kept} == {"[true, true, true]", "[true, false]"}
    assert len(kept) == 2
    assert site.ask("SELECT count(*) FROM greens_storedfile WHERE reading_set_id IS NOT NULL") == 2


def test_with_no_page_open_the_browser_wakes_the_worker_once_there_is_signal(site, phone_of):
    page = phone_of()
    log_without_signal(page, "8")
    browser = page.context.new_page()
    woken = woken_by(browser, page)
    page.close()
    browser.context.set_offline(False)
    assert until(lambda: woken() or site.ask(ENTRIES) == 1, seconds=20)
    assert heights(site) == [8]


def test_a_worker_never_sends_what_somebody_else_wrote(site, phone_of):
    page = phone_of()
    log_without_signal(page, "8")
    site.change("DELETE FROM django_session")
    page.context.set_offline(False)
    sign_in(page, "head")
    page.evaluate("() => import('/static/greens/js/pocket/behind.js').then((one) => one.sendBehind())")
    assert (site.ask(ENTRIES), page.evaluate(SLIPS)) == (0, 1)


def test_an_answer_lost_on_the_way_doubles_nothing(site, line, phone_of):
    page = phone_of()
    line.lose(99)  # the browser itself sends again over each line that it had used before
    log_cut(page, "8")
    expect(page.locator("[data-said]")).to_contain_text("It is sent when there is signal")
    assert site.ask(ENTRIES) == 1
    line.lose(0)
    arrive(page)
    assert heights(site) == [8]


def test_a_site_killed_between_keeping_and_answering_doubles_nothing(own_site, new_context):
    port = free_port()
    with own_site.served(port) as server, line_to(port) as line:
        page = new_context(viewport=PHONE, has_touch=True, base_url=line.address).new_page()
        sign_in(page, "staff")
        page.evaluate(HAS_COPIES)
        line.lose(1, and_then=server.kill)
        log_cut(page, "8")
        expect(page.locator("[data-said]")).to_contain_text("It is sent when there is signal")
        assert heights(own_site) == [8]
        until(lambda: own_site.processes() == [])
        with own_site.served(port):
            arrive(page)
    assert heights(own_site) == [8]


def test_one_that_is_refused_holds_nothing_up_and_can_be_mended(site, phone_of):
    page = phone_of()
    log_without_signal(page, "300", "8")
    page.context.set_offline(False)
    page.goto(f"{CLUB}/pocket/")
    expect(page.locator("[data-slips] > li")).to_have_count(1)
    expect(page.locator("[data-why]")).to_contain_text("300")
    assert heights(site) == [8]
    page.get_by_role("link", name="Mend it").tap()
    box = page.get_by_label("Height of cut on the bench")
    expect(box).to_have_value("300")
    box.fill("7")
    page.get_by_role("button", name="Keep it").tap()
    page.wait_for_url("**?kept")
    assert heights(site) == [7, 8]
    assert page.evaluate(SLIPS) == 0


def test_signed_out_meanwhile_it_waits_until_the_same_person_signs_in(site, phone_of):
    page = phone_of()
    log_without_signal(page, "8")
    site.change("DELETE FROM django_session")
    page.context.set_offline(False)
    page.goto(f"{CLUB}/today/")
    page.wait_for_url("**/sign-in/**")
    sign_in(page, "head")
    page.goto(f"{CLUB}/pocket/")
    expect(page.locator("[data-others]")).to_contain_text("1 more on this phone, by Callum Reed")
    assert site.ask(ENTRIES) == 0
    page.get_by_role("button", name="Sign out").tap()
    page.wait_for_url("**/sign-in/")
    sign_in(page, "staff")
    arrive(page)
    assert heights(site) == [8]


def test_signing_out_warns_of_what_has_not_arrived(site, phone_of):
    page = phone_of()
    log_without_signal(page, "8")
    page.get_by_role("button", name="Sign out").tap()
    expect(page.get_by_role("dialog")).to_contain_text("1 entry has not arrived yet")
    page.get_by_role("button", name="Stay signed in").tap()
    assert page.evaluate(SLIPS) == 1


def test_a_clock_an_hour_wrong_at_half_past_eleven_moves_no_day(site, phone_of):
    """At 23:30 in the club the phone believes that the next day has begun; the page knows better."""
    page = phone_of()
    page.clock.install(time="2026-11-28T23:30:00Z")
    page.goto(CUT)
    page.evaluate("document.documentElement.dataset.madeAt")
    log_without_signal(page, "8")
    arrive(page)
    assert site.ask('SELECT "on" FROM greens_entry') == "2026-04-16"
    assert abs(site.ask("SELECT ahead_s FROM greens_arrival")) > 120


def test_a_page_of_yesterday_asks_for_the_day(site, phone_of):
    page = phone_of()
    page.context.set_offline(True)
    page.clock.install()
    page.clock.fast_forward("24:00:00")
    log_cut(page, "8")
    dialog = page.get_by_role("dialog")
    expect(dialog).to_contain_text("This page is of Thu 16 April; it is Fri 17 April now.")
    dialog.get_by_role("button", name="Thu 16 April").tap()
    expect(page.locator("[data-said]")).to_contain_text("Cut, Seventh, Thu 16 April")
    arrive(page)
    assert site.ask('SELECT "on" FROM greens_entry') == "2026-04-16"


SEND = """async ([count, number]) => {
  const { member } = document.documentElement.dataset;
  const form = new FormData(document.querySelector("form[data-pocket]"));
  form.set("client_id", number);
  form.set("height_mm", "8");
  form.set("greens", document.querySelector("[name=greens]").value);
  const csrf = document.cookie.match(/csrftoken=(\\w+)/)[1];
  const head = { "X-CSRFToken": csrf, "X-Pocket": "later", "X-Pocket-Id": number, "X-Pocket-Member": member };
  const asked = { method: "POST", body: form, headers: head };
  const send = async () => (await fetch(location.pathname, asked)).json();
  return Promise.all(Array.from({ length: count }, send));
}"""


def test_sixteen_at_once_are_one_entry_and_sixteen_times_the_same_answer(site, phone_of):
    page = phone_of(keeps_copies=False)
    page.goto(CUT)
    answers = page.evaluate(SEND, [16, str(uuid4())])
    assert {answer["state"] for answer in answers} == {"kept"}
    assert len({answer["page"] for answer in answers}) == 1
    assert site.ask(ENTRIES) == 1


def test_a_newer_app_loses_nothing_that_waits(site, phone_of):
    page = phone_of()
    log_without_signal(page, "8")
    page.evaluate(
        "() => new Promise((done) => { const asked = indexedDB.open('pocket', 9);"
        " asked.onsuccess = () => { asked.result.close(); done(); }; })"
    )
    arrive(page)
    assert heights(site) == [8]


#: How many wait in the measurement; the pocket of a whole week with GREENS_POCKET_FULL=200.
FULL = int(os.environ.get("GREENS_POCKET_FULL", "30"))
AT_MOST_TIMES = 3
COSTS = """async (count) => {
  const { all, keep } = await import("/static/greens/js/pocket/slips.js");
  const { sendAll } = await import("/static/greens/js/pocket/send.js");
  const { newId } = await import("/static/greens/js/pocket/here.js");
  const { club, member, name } = document.documentElement.dataset;
  const written = [...new FormData(document.querySelector("form[data-pocket]"))];
  const isOwn = ([key, value]) => typeof value === "string" && !["client_id", "height_mm"].includes(key);
  const form = written.filter(isOwn);
  const fieldsOf = (id, height) => [...form, ["client_id", id], ["height_mm", height.toFixed(2)]];
  const direct = async (n) => {
    const body = new FormData();
    fieldsOf(newId(), 5 + n / 100).forEach((field) => body.append(...field));
    await fetch(location.pathname, { method: "POST", body, redirect: "manual" });
  };
  const seconds = async (deed) => {
    const began = performance.now();
    await deed();
    return (performance.now() - began) / 1000;
  };
  const plain = await seconds(async () => { for (let n = 0; n < count; n += 1) await direct(n); });
  for (let n = 0; n < count; n += 1) {
    const [id, keptAt] = [newId(), new Date().toISOString()];
    const slip = { id, keptAt, state: "waiting", club, member, name, path: location.pathname, words: "Cut" };
    await keep({ ...slip, fields: fieldsOf(id, 5 + n / 100), on: "2026-04-16", notBefore: 0, files: [] });
  }
  const queued = await seconds(() => sendAll({ evenSoon: true }));
  return { plain, queued, left: (await all()).length };
}"""


def test_a_full_pocket_costs_little_more_than_as_many_forms_sent_at_once(site, phone_of, capsys):
    page = phone_of(keeps_copies=False)
    page.goto(CUT + "?green=1")
    cost = page.evaluate(COSTS, FULL)
    times = cost["queued"] / cost["plain"]
    with capsys.disabled():
        print(f"\n{FULL} from the pocket: {cost['queued']:.1f} s, {times:.2f} times those sent directly")
    assert (cost["left"], site.ask(ENTRIES)) == (0, 2 * FULL)
    assert times <= AT_MOST_TIMES
