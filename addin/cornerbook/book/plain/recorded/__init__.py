"""The geometry recorded: numbers that remember what is done to them, and what it sees of them.

`steps.py` has these numbers, `naming.py` their headings, `slopes.py` their derivatives, `said.py`
sentences made of them, `words.py` a number in a sentence; `block.py` and `corners.py` are a block
and a corner that consist of them.
"""
