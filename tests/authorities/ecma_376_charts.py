"""What ECMA-376 asks of charts beyond what a schema can say.

Source: ECMA-376 Part 1, chapter 21.2 (DrawingML charts), from memory of the standard; the
wording is ours.
"""

import re

from tests.authorities.ecma_376_sheets import sheets

CHART = "{http://schemas.openxmlformats.org/drawingml/2006/chart}"
DRAWING = "{http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing}"
_AXES = {CHART + name for name in ("valAx", "catAx", "dateAx", "serAx")}
_PLACE = re.compile(r"(?:'((?:[^']|'')+)'|([\w.]+))!\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?$")


def mistakes(package):
    """Sentences on what the standard does not allow in charts and their drawings."""
    names, found = set(sheets(package)), []
    for part in package.names:
        if re.match(r"xl/charts/chart\d+\.xml$", part):
            found += _chart(part, package.xml(part), names)
        elif re.match(r"xl/drawings/drawing\d+\.xml$", part):
            found += _drawing(part, package.xml(part))
    return found


def _chart(part, root, names):
    found = []
    axes = [a for a in root.iter() if a.tag in _AXES]
    known = [a.find(CHART + "axId").get("val") for a in axes]
    if len(set(known)) < len(known):
        found.append(f"{part}: two axes of one number")
    for axis in axes:
        if axis.find(CHART + "crossAx").get("val") not in known:
            found.append(f"{part}: an axis crosses one that is not there")
    for plot in root.iter(CHART + "plotArea"):
        kinds = [kind for kind in plot if kind.tag not in _AXES]
        used = {one.get("val") for kind in kinds for one in kind.findall(CHART + "axId")}
        if used != set(known):
            found.append(f"{part}: axes {sorted(used)} are used, {sorted(known)} are there")
    for key in ("idx", "order"):
        given = [s.find(CHART + key).get("val") for s in root.iter(CHART + "ser")]
        if len(set(given)) < len(given):
            found.append(f"{part}: two series of one {key}")
    for cache in [*root.iter(CHART + "numCache"), *root.iter(CHART + "strCache")]:
        places = [int(one.get("idx")) for one in cache.findall(CHART + "pt")]
        count = int(cache.find(CHART + "ptCount").get("val"))
        if places != sorted(set(places)) or (places and places[-1] >= count):
            found.append(f"{part}: stored points out of order or beyond their count")
    for formula in root.iter(CHART + "f"):
        place = _PLACE.match(formula.text or "")
        if place is None:
            found.append(f"{part}: {formula.text} is no place in a sheet")
            continue
        name = (place[1] or place[2]).replace("''", "'")
        if name not in names:
            found.append(f"{part}: there is no sheet {name}")
    return found


def _drawing(part, root):
    given = [one.get("id") for one in root.iter(DRAWING + "cNvPr")]
    return [f"{part}: two shapes of one number"] if len(set(given)) < len(given) else []
