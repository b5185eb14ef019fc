"""The colours of a picture."""

INK, FAINT, PALE = "#2B3640", "#6C7884", "#D5DBE1"
LOWER, UPPER, ROD = "#2F5D8A", "#6F97BE", "#A8473B"
PULL, PUSH = "#1F62B0", "#C0281E"
BODY = "#9AA5B1"
