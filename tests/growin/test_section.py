"""The section of a build: to scale, with its spread, the same bytes every time."""

import re
from datetime import date
from xml.etree import ElementTree

import pytest
from django.urls import reverse
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from greens.actions.build import set_drain, set_layer
from greens.choices import DrainKind, LayerKind
from growin.agronomy.build_facts import BuildFacts, DrainFacts
from growin.agronomy.construction import judge_build
from growin.charts import section
from growin.charts.section_notes import notes_of

DEPTHS = {"excavation": (402, 410), "gravel": (104, 101), "rootzone": (300, 305, 262)}
FACTS = BuildFacts(
    depths_mm=DEPTHS, drains=DrainFacts(trench_width_mm=150, trench_depth_mm=200, lateral_mm=80)
)


def drawn(facts: BuildFacts) -> Axes:
    axes = Figure().add_subplot()
    section.draw_section(axes, facts, None)
    return axes


def lines(facts: BuildFacts) -> list[tuple[tuple, tuple]]:
    return [(tuple(line.get_xdata()), tuple(line.get_ydata())) for line in drawn(facts).lines]


def test_layers_lie_at_their_mean_depths():
    """Rootzone 289 mm on average, gravel 102.5 mm beneath it."""
    feet = [y[0] for x, y in lines(FACTS) if x == (0, section.CUT_MM)]
    assert sorted(feet) == [0, 289, 391.5, 406]


def test_every_reading_is_a_stroke_at_its_own_depth():
    strokes = {y[0] for x, y in lines(FACTS) if x[0] > 0 and x[1] < section.CUT_MM}
    assert strokes == {300, 305, 262, 289 + 104, 289 + 101, 402, 410}


def test_the_trench_is_as_wide_as_it_was_dug():
    boxes = [patch for patch in drawn(FACTS).patches if isinstance(patch, Rectangle)]
    trench = next(box for box in boxes if box.get_width() == 150)
    assert (trench.get_y(), trench.get_height()) == (406, 200)


def test_what_is_out_is_marked_at_its_depth_with_words():
    notes = {note.heading: note for note in notes_of(FACTS, judge_build(FACTS))}
    assert {heading: note.is_out for heading, note in notes.items()} == {
        "Rootzone": True,
        "Gravel": False,
        "Floor of the digging": False,
        "Drain trench": False,
    }
    assert notes["Rootzone"].at_mm == 144.5
    assert "out: 275–325 mm wanted" in notes["Rootzone"].lines


def test_notes_never_lie_over_each_other():
    notes = notes_of(FACTS, judge_build(FACTS), 30)
    assert all(above.foot_mm <= below.top_mm for above, below in zip(notes, notes[1:], strict=False))


def test_the_same_facts_give_the_same_bytes_without_a_date():
    one, two = (section.section_svg(FACTS, judge_build(FACTS)) for _ in range(2))
    assert one == two
    assert b"<dc:date>" not in one


@pytest.mark.parametrize(
    "depths",
    [
        {},
        {"gravel": (100,)},
        {"excavation": (450,)},
        {"rootzone": (0, 0)},
        {"blinding": (50, 60), "gravel": (1,)},
    ],
)
def test_a_half_entered_build_is_drawn_as_far_as_it_is_known(depths):
    facts = BuildFacts(depths_mm=depths)
    svg = ElementTree.fromstring(section.section_svg(facts, judge_build(facts)))
    assert svg.tag.endswith("svg")


@pytest.mark.django_db
def test_the_picture_comes_as_an_inert_image_with_words_beside_it(cast, as_):
    for kind, depths in ((LayerKind.ROOTZONE, (300, 262)), (LayerKind.GRAVEL, (104, 101))):
        set_layer(
            establishment=cast.establishment,
            by=cast.head,
            kind=kind,
            depths_mm=depths,
            levelled_on=date(2025, 9, 20),
        )
    set_drain(establishment=cast.establishment, by=cast.head, kind=DrainKind.LATERAL, trench_depth_mm=200)
    answer = as_("committee").get(reverse("section", args=[cast.club.slug, cast.establishment.pk]))
    assert answer["Content-Type"] == "image/svg+xml"
    policy = set(answer["Content-Security-Policy"].split("; "))
    assert policy == {"default-src 'none'", "style-src 'unsafe-inline'", "sandbox"}
    page = as_("committee").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    alt = re.search(r'section\.svg" alt="([^"]+)"', page).group(1)
    assert alt == (
        "Section of the build, from the top: rootzone 281 mm on average (262 to 300 mm at 2 places), "
        "gravel blanket 102 mm on average (101 to 104 mm at 2 places). Out: rootzone."
    )
