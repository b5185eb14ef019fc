"""How cells look. Inputs are on yellow paper and unlocked; all else is locked."""

from ...file.appearance import FAINT, FONT, HEAD, INK, LINK, LOOK, PAPER, RULE

_BASE = {"font_name": FONT, "font_size": 10, "font_color": INK, "valign": "vcenter"}

LOOKS = {
    "plain": {},
    "title": {"bold": True, "font_size": 18, "font_color": HEAD},
    "below": {"italic": True, "font_color": FAINT, "text_wrap": True, "valign": "top"},
    "heading": {"bold": True, "font_size": 12, "font_color": HEAD, "bottom": 2,
                "bottom_color": HEAD},
    "column": {"bold": True, "text_wrap": True, "font_color": HEAD, "bottom": 1,
               "bottom_color": RULE, "align": "right"},
    "column verdict": {"bold": True, "text_wrap": True, "font_color": HEAD, "bottom": 1,
                       "bottom_color": RULE, "align": "center"},
    "column unit": {"bold": True, "text_wrap": True, "font_color": HEAD, "bottom": 1,
                    "bottom_color": RULE, "indent": 1},
    "column first": {"bold": True, "text_wrap": True, "font_color": HEAD, "bottom": 1,
                     "bottom_color": RULE},
    "label": {"bottom": 1, "bottom_color": RULE},
    "unit": {"font_color": FAINT, "indent": 1, "bottom": 1, "bottom_color": RULE},
    "note": {"font_color": FAINT, "font_size": 9, "text_wrap": True, "bottom": 1,
             "bottom_color": RULE, "indent": 1},
    "aside": {"font_color": FAINT, "font_size": 9, "text_wrap": True},
    "text": {"text_wrap": True, "valign": "top"},
    "caution": {"text_wrap": True, "valign": "top", "bg_color": LOOK[0], "font_color": INK,
                "border": 1, "border_color": LOOK[1]},
    "input": {"bg_color": PAPER, "border": 1, "border_color": RULE, "locked": False},
    "input words": {"bg_color": PAPER, "border": 1, "border_color": RULE, "locked": False,
                    "align": "left", "indent": 1},
    "value": {"bottom": 1, "bottom_color": RULE, "align": "right"},
    "open": {"align": "right"},
    "open words": {},
    "state": {},
    "said": {"bottom": 1, "bottom_color": RULE, "text_wrap": True},
    "verdict": {"bottom": 1, "bottom_color": RULE, "align": "center", "bold": True},
    "table": {"bottom": 4, "bottom_color": RULE, "align": "right"},
    "table words": {"bottom": 4, "bottom_color": RULE, "align": "left", "indent": 1},
    "code": {"font_name": "Courier New", "font_size": 9, "bottom": 1, "bottom_color": RULE,
             "text_wrap": True},
    "behind": {"font_color": RULE, "font_size": 8, "align": "left",
               "indent": 2},
    "link": {"font_color": LINK, "underline": 1, "font_size": 9, "indent": 1},
    "fixed": {"font_color": FAINT, "bottom": 1, "bottom_color": RULE},
}  # fmt: skip


def properties(look, number_format):
    """The properties of a look for the writer, with a number format if there is one."""
    made = {**_BASE, **LOOKS[look]}
    if number_format:
        made["num_format"] = number_format
    return made
