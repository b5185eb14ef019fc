"""The charts on a worksheet, and the cells that they show."""

_CHART = "{http://schemas.openxmlformats.org/drawingml/2006/chart}"


def charts_on(parts, part):
    """[the formulas of its ranges] of each chart on a sheet. part: the name of the sheet's."""
    found = []
    for drawing in parts.relations.targets(part, "drawing"):
        for chart in parts.relations.targets(drawing, "chart"):
            if chart in parts:
                texts = (each.text for each in parts.tree(chart).iter(_CHART + "f"))
                found.append([text for text in texts if text])
    return found
