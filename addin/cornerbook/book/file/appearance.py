"""What every sheet of ours shares: the font, the colours, and the caution in one sentence."""

CAUTION = "Geometry and estimates under stated assumptions; no check of strength."

FONT = "Arial"
INK = "#1F2933"
FAINT = "#5F6C7B"
RULE = "#C9D2DC"
LINK = "#2F6DB5"
HEAD = "#2F4B66"
PAPER = "#FFF6BF"
GOOD = ("#E3F4E1", "#1E6B2B")
LOOK = ("#FCE4DA", "#9A3412")
DOUBT = ("#FFF0C9", "#7A5200")
