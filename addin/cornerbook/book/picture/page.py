"""Where the views and the text stand on the page, all views at one scale.

Lengths on the page are inches; a place on it is (left, bottom, width, height), each in shares of
the page, as matplotlib has them.
"""

from .view import VIEWS

_WIDEST = 13.0
"""Of the page with all three views."""

_WIDE = 9.0
"""Of one with a single view, at most."""

_EDGE, _GAP = 0.45, 0.75
_TITLE = 0.45

_BELOW = 1.25
"""Below a single view, for the text."""


def layout(boxes):
    """({view: place of its axes}, (left, top) of the text, (width, height) of the page).

    boxes: {view: its limits}, of one view or of all three. Of three, the plan stands above
    the front view and the side view to its right, as in third-angle projection.
    """
    spans = {name: (abs(b - a), abs(d - c)) for name, (a, b, c, d) in boxes.items()}
    if len(spans) == 1:
        ((name, span),) = spans.items()
        place, text, size = _single(*span)
        return {name: place}, text, size
    return _third_angle(*(spans[name] for name in VIEWS))


def _single(wide, high):
    scale = min((_WIDE - 2 * _EDGE) / wide, 7.5 / high)
    size = (max(wide * scale, 6.5) + 2 * _EDGE, high * scale + _BELOW + _TITLE)
    left = 0.5 * (size[0] - wide * scale)
    at = (left / size[0], _BELOW / size[1], wide * scale / size[0], high * scale / size[1])
    return at, (_EDGE, _BELOW - 0.35), size


def _third_angle(front, side, plan):
    scale = (_WIDEST - 2 * _EDGE - _GAP) / (front[0] + side[0])
    scale = min(scale, 10.0 / (front[1] + plan[1]))
    wide = 2 * _EDGE + _GAP + scale * (front[0] + side[0])
    high = 2 * _EDGE + _GAP + scale * (front[1] + plan[1])

    def place(left, low, span):
        return (left / wide, low / high, scale * span[0] / wide, scale * span[1] / high)

    above = _EDGE + _GAP + scale * front[1]
    places = {
        "front": place(_EDGE, _EDGE, front),
        "side": place(_EDGE + _GAP + scale * front[0], _EDGE, side),
        "plan": place(_EDGE, above, plan),
    }
    beside = 2 * _EDGE + _GAP + scale * front[0] - 0.3
    return places, (beside, above + scale * plan[1]), (wide, high)
