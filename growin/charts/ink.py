"""How our pictures are drawn: paper, ink, our own type, and the same bytes for the same facts.

Matplotlib is heavy, so it is imported where a picture is drawn and nowhere else.
"""

import pickle
from collections.abc import Callable
from functools import wraps
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from django.core.cache import cache

from greens import units

#: A picture is kept so long after somebody looked at it first.
LONGEST_S = 86_400

PAPER, INK, FAINT, RULE = "#FBF8F1", "#20282B", "#4B5457", "#D8D0C0"
ACCENT, SAND, WATER, GROWTH = "#6A2E55", "#C9A15A", "#2F6F8F", "#5E7F3A"

TYPE = Path(__file__).parent / "type"
STYLE = {
    "font.family": ["Field Text", "DejaVu Sans"],
    "font.size": 11,
    "text.color": INK,
    "axes.edgecolor": INK,
    "axes.labelcolor": INK,
    "axes.facecolor": PAPER,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.linewidth": 1,
    "figure.facecolor": PAPER,
    "xtick.color": INK,
    "ytick.color": INK,
    "grid.color": RULE,
    "hatch.color": INK,
    "hatch.linewidth": 0.5,
    "svg.hashsalt": "field-book",
    "svg.fonttype": "path",
}


def with_our_type() -> None:
    """Make our faces known to matplotlib; once is enough."""
    from matplotlib import font_manager

    known = {Path(face.fname).name for face in font_manager.fontManager.ttflist}
    for file in sorted(TYPE.glob("*.ttf")):
        if file.name not in known:
            font_manager.fontManager.addfont(str(file))


def drawn_once(draws: Callable[..., bytes]) -> Callable[..., bytes]:
    """Keep a picture under everything that it is drawn from, and the units it speaks."""

    @wraps(draws)
    def kept(*facts, **how) -> bytes:
        content = pickle.dumps((draws.__module__, units.active(), facts, how))
        return cache.get_or_set(
            f"picture:{sha256(content).hexdigest()}", lambda: draws(*facts, **how), LONGEST_S
        )

    return kept


def svg(draw, width_in: float, height_in: float) -> bytes:
    """The picture that ``draw(figure)`` draws on a sheet of that size, as SVG without a date."""
    import matplotlib
    from matplotlib.figure import Figure

    with_our_type()
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=(width_in, height_in), layout="constrained")
        draw(figure)
        out = BytesIO()
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return out.getvalue()
