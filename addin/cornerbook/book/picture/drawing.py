"""Pictures of a corner or an axle: front, side and plan view to one scale, PNG, SVG or PDF.

The front view is seen from ahead of the car, so its left-hand wheel is on the right; the plan
stands above it and the side view, of the left side, to its right, as in third-angle
projection. matplotlib does the drawing and is imported only here.
"""

import io

from ..file.trouble import Trouble
from .captions import Captions
from .page import layout
from .panel import draw_view
from .sheet import Sheet, figure_of_sheet
from .view import VIEWS, View, line_up

KINDS = ("png", "svg", "pdf")
"""What a picture may be saved as."""

_ABOUT = {
    "png": {"Software": None},
    "svg": {"Date": None, "Creator": "cornerbook"},
    "pdf": {"CreationDate": None, "Producer": None, "Creator": "cornerbook"},
}
"""Without a date or a version: a picture is the same file each time it is made."""


def draw(picture, view="all", kind="png"):
    """The bytes of a picture. view: front, side, plan or all. kind: one of `KINDS`."""
    return _saved(lambda: figure_of(picture, view), kind)


def draw_sheet(picture, paper, kind="pdf", mm=1.0, datum=(0.0, 0.0, 0.0)):
    """The bytes of a drawing sheet; `Sheet` says what paper, mm and datum are."""
    sheet = Sheet(picture, paper, mm, datum)
    if sheet.scale is None:
        raise Trouble(
            "the car is too large for the paper at any scale; is the unit of length the true one?"
        )
    return _saved(lambda: figure_of_sheet(sheet), kind)


def _saved(make, kind):
    matplotlib = _matplotlib()
    settings = {
        "svg.hashsalt": "cornerbook",
        "svg.fonttype": "none",
        "pdf.fonttype": 42,
        "font.family": ["DejaVu Sans", "sans-serif"],
        "font.size": 7.5,
        "axes.linewidth": 0.6,
    }
    with matplotlib.rc_context(settings):
        content = io.BytesIO()
        make().savefig(content, format=kind, dpi=150, metadata=_ABOUT[kind])
    return content.getvalue()


def _matplotlib():
    try:
        import matplotlib
    except ImportError as error:
        raise Trouble(
            "pictures need the package matplotlib; install it with: pip install matplotlib"
        ) from error
    return matplotlib


def figure_of(picture, view="all"):
    """The matplotlib figure; each drawn line has a gid such as "front-left-tie-rod"."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    views = {name: View(name, picture) for name in (VIEWS if view == "all" else (view,))}
    line_up(views)
    places, text, size = layout({name: each.box for name, each in views.items()})
    figure = Figure(figsize=size, dpi=100, facecolor="white")
    FigureCanvasAgg(figure)
    for name, each in views.items():
        draw_view(figure.add_axes(places[name], label=name), each, picture)
    captions = Captions(figure, picture)
    (captions.beside if view == "all" else captions.below)(*text)
    return figure
