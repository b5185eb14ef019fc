"""The calls in a workbook: `calls.py` replaces them, `arguments.py` reads what they are given,
`identity.py` says which arguments are the same, `elsewhere.py` spells them for other sheets."""
