"""The groups in which a workbook's sheets stand, each with the colour of its tabs, in order."""

REFERENCE = "reference"
"""The group of the sheets that do not go on paper."""

GROUPS = {
    "the car and what is wanted": "#8A6D1F",
    "the points": "#B5472F",
    "what comes out": "#2F6DB5",
    "change it": "#3B8A4E",
    "build it": "#7A4FA3",
    REFERENCE: "#5F6C7B",
}
