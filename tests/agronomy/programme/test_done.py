"""What was done and found moves the chains of a programme; what was not leaves them alone."""

from datetime import date, timedelta

from growin.agronomy.climate import Climate
from growin.agronomy.criteria import DEFAULTS as CRITERIA_DEFAULTS
from growin.agronomy.defaults import values
from growin.agronomy.facts import ReadingFacts
from growin.agronomy.programme import draw_programme
from growin.agronomy.programme.done import Done, cover_seen, held_on, rooted_on
from tests.agronomy.climates import ENGLAND
from tests.agronomy.programme.drawn import SETTINGS, by_key, drawn, facts, likely

CRITERIA = values(CRITERIA_DEFAULTS)
TODAY = date(2026, 4, 16)
PLAIN = drawn(facts())
SEED = facts("seed", "creeping bent", established_on=date(2026, 4, 20))


def drawn_after(done: Done, green=None):
    return draw_programme(green or facts(), Climate(ENGLAND), SETTINGS, done=done)


def days(count: int) -> timedelta:
    return timedelta(days=count)


def test_nothing_done_draws_the_same_programme():
    assert drawn_after(Done()) == PLAIN


def test_feeds_go_on_from_the_day_the_last_was_given():
    """Turf in growth is fed every 7–10 days (common practice), counted from the last."""
    planned = likely(PLAIN, "feed-0")
    on = planned["feed-01"] + days(6)
    done = Done(TODAY, steps={"feed-01": on}, last={"feed": on}, feeds=((on, 6),))
    then = likely(drawn_after(done), "feed-0")
    assert then["feed-01"] == on
    assert (then["feed-02"] - on).days >= 7
    assert then["feed-02"] >= planned["feed-02"]


def test_a_feed_that_stands_out_is_due_today_unless_it_was_answered_as_not_done():
    on = likely(PLAIN, "feed-0")["feed-01"]
    today = on + days(60)
    done = {"steps": {"feed-01": on}, "last": {"feed": on}, "feeds": ((on, 6),)}
    assert likely(drawn_after(Done(today, **done)), "feed-0")["feed-02"] == today
    passed = likely(drawn_after(Done(today, **done, passed=frozenset({"feed-02"}))), "feed-0")
    assert (passed["feed-02"] < today, passed["feed-03"]) == (True, today)


def test_a_feed_that_nobody_ticked_holds_the_next_one_back():
    planned = likely(PLAIN, "feed-0")
    on = planned["feed-03"] - days(3)
    then = likely(drawn_after(Done(TODAY, last={"feed": on}, feeds=((on, 8),))), "feed-0")
    assert then["feed-02"] == planned["feed-02"]
    assert 7 <= (then["feed-03"] - on).days <= 10


def test_what_was_given_counts_towards_the_nitrogen_of_the_year():
    """Relaid turf 60–100 kg N/ha in its first season (our judgement)."""
    on = likely(PLAIN, "feed-0")["feed-01"]
    step = {"steps": {"feed-01": on}, "last": {"feed": on}}
    heavy = drawn_after(Done(on, **step, feeds=((on, 90),)))
    later = [one.n_kg_ha for one in heavy if one.n_kg_ha and one.likely > on]
    assert 90 + sum(later) <= SETTINGS["feeding.season.turf_relaid.high_n_kg_ha"]


def test_sand_goes_on_from_the_day_of_the_last_pass():
    """Light passes every 7–14 days in growth: common practice."""
    planned = likely(PLAIN, "dressing-0")
    on = planned["dressing-01"] + days(9)
    then = likely(drawn_after(Done(on, steps={"dressing-01": on}, last={"dressing": on})), "dressing-0")
    assert then["dressing-01"] == on
    assert 7 <= (then["dressing-02"] - on).days <= 14


def test_the_first_pass_waits_for_the_joints_as_they_were_done():
    on = by_key(PLAIN)["dressing-joints"].likely + days(40)
    then = by_key(drawn_after(Done(on, steps={"dressing-joints": on}, last={"dressing": on})))
    assert then["dressing-joints"].likely == on
    assert then["dressing-01"].likely >= on + days(14)


def test_heights_go_on_from_the_last_cut_with_its_hold():
    """Down a step only when the last one has held (common practice): at least a week at 7 mm."""
    cut = TODAY - days(2)
    done = Done(TODAY, cuts=((date(2025, 11, 24), 12), (date(2025, 12, 10), 8), (cut, 7)))
    then = likely(drawn_after(done), "cut-ladder")
    assert (then["cut-ladder-8.0"], then["cut-ladder-7.0"]) == (date(2025, 12, 10), cut)
    lower = [on for key, on in then.items() if key < "cut-ladder-7.0"]
    assert min(lower) >= cut + days(round(SETTINGS["heights.hold.days"]))


def test_a_height_that_stands_out_is_not_planned_for_a_day_gone_by():
    done = Done(TODAY, cuts=((date(2025, 11, 24), 12), (date(2025, 12, 10), 8), (TODAY - days(1), 8)))
    lower = {
        key: on for key, on in likely(drawn_after(done), "cut-ladder").items() if key != "cut-ladder-8.0"
    }
    assert min(lower.values()) >= TODAY
    assert likely(PLAIN, "cut-ladder")["cut-ladder-7.0"] < TODAY


def test_a_cut_is_the_same_height_within_what_the_bench_may_be_off():
    done = Done(TODAY, cuts=((date(2026, 3, 1), 8.1), (date(2026, 3, 20), 7.9), (date(2026, 4, 10), 8)))
    assert done.height == (8, date(2026, 3, 1))


def test_a_green_in_play_is_looked_at_again_from_its_real_first_day():
    """Days 7, 14 and 28 in play (our judgement)."""
    opened = date(2026, 5, 9)
    then = likely(drawn_after(Done(opened + days(2), opened_on=opened)), "recheck")
    assert then == {f"recheck-{after:02d}": opened + days(after) for after in (7, 14, 28)}


def test_an_opening_that_did_not_come_is_not_planned_for_a_day_gone_by():
    late = date(2026, 6, 20)
    assert by_key(drawn_after(Done(late)))["inspection-opening"].likely == late


def test_turf_that_was_read_rooted_is_fed_before_the_clock_says_so():
    """Nothing until rooted: Maryland golf best management practices."""
    spring = facts(established_on=date(2026, 4, 1))
    by_clock = likely(drawn(spring), "feed-0")["feed-01"]
    seen = drawn_after(Done(rooted_on=by_clock - days(9), as_of=by_clock - days(9)), spring)
    assert likely(seen, "feed-0")["feed-01"] < by_clock


def test_seed_that_does_not_cover_yet_is_fed_at_its_weekly_rate():
    """Taper once cover is 95 % or more: our judgement after the trials."""

    def covered_feeds(done):
        return [step for step in drawn_after(done, SEED) if step.what == "Feed at the lower rate"]

    usual = covered_feeds(Done())[0].likely
    bare = covered_feeds(Done(not_covered_on=usual + days(20)))
    assert bare[0].likely > usual + days(20)
    assert covered_feeds(Done(covered_on=usual - days(8)))[0].likely < usual


def reading(measure, on, *taken):
    return ReadingFacts(measure, on, taken)


def test_rooted_on_the_first_day_that_pull_and_cores_have_both_met_their_rule():
    """8 of 10 points hold; white roots of 50 mm in 4 of 5 cores (common practice)."""
    april = [date(2026, 4, day) for day in (2, 9, 12, 16)]
    read = [
        reading("hand_pull", april[0], *[True] * 8, False, False),
        reading("rooting_depth", april[1], 48, 55, 60, 40, 52),
        reading("rooting_depth", april[2], 52, 55, 60, 40, 52),
        reading("rooting_depth", april[3], 60, 60, 60, 60, 60),
    ]
    assert rooted_on(read, False, CRITERIA) == april[2]
    assert rooted_on(read[:2], False, CRITERIA) is None
    assert held_on(read) == april[0]


def test_cover_says_when_it_came_up_and_when_it_covered():
    may = [date(2026, 5, day) for day in (4, 11, 18)]
    hits = zip(may, (10, 200, 240), strict=True)
    read = [reading("cover", on, {"hits": seen, "points": 250}) for on, seen in hits]
    assert cover_seen(read) == (may[0], may[2], may[1])
    assert cover_seen([]) == (None, None, None)
