"""Numbers that record what is done to them: the third evaluator of the geometry.

A `Step` stands for a cell, a constant, or an operation on other steps. The geometry, called
with steps in place of numbers, builds a graph of them; `workings/tables.py` lays that graph
out as columns of plain formulas. Equal operations on equal parts are one step, so what two
measures share stands once.

A step answers `__array_namespace__`, as arrays do, which is how the geometry finds its
square roots and sines.
"""

import math

from .words import IN_WORDS, most_decimals

_DEGREE = math.pi / 180.0

# Binary operators by their spelling in a cell, with their strength.
STRENGTH = {
    "=": 1, "<": 1, ">": 1, "<=": 1, ">=": 1, "&": 2, "+": 3, "-": 3, "*": 4, "/": 4, "^": 5,
}  # fmt: skip


made = None
"""What is called for each step that is newly made of others, if anything is (`naming.py`)."""


class Step:
    """One value of a recorded calculation. Make them through a `Recorder`.

    kind: 'constant' (`what` is a float, text or truth), 'input' (`what` is any key that the
    layout knows), an operator, the name of a spreadsheet function, or `IN_WORDS`. parts: the
    steps that it works on.
    """

    __slots__ = ("kind", "label", "parts", "recorder", "what")

    def __init__(self, recorder, kind, parts, what=None):
        self.recorder = recorder
        self.kind = kind
        self.parts = parts
        self.what = what
        self.label = None

    def __repr__(self):
        return f"<Step {self.kind} {self.what if self.what is not None else self.label!r}>"

    # Hashed by identity: `==` is recorded like any operation.
    __hash__ = object.__hash__

    def __bool__(self):
        raise TypeError("a recorded number was asked for a plain truth; use where or hold")

    def __array_namespace__(self, **_):
        return self.recorder

    def __add__(self, other):
        return self.recorder.add(self, other)

    def __radd__(self, other):
        return self.recorder.add(other, self)

    def __sub__(self, other):
        return self.recorder.subtract(self, other)

    def __rsub__(self, other):
        return self.recorder.subtract(other, self)

    def __mul__(self, other):
        return self.recorder.multiply(self, other)

    def __rmul__(self, other):
        return self.recorder.multiply(other, self)

    def __truediv__(self, other):
        return self.recorder.divide(self, other)

    def __rtruediv__(self, other):
        return self.recorder.divide(other, self)

    def __neg__(self):
        return self.recorder.subtract(0.0, self)

    def __lt__(self, other):
        return self.recorder.make("<", self, other)

    def __gt__(self, other):
        return self.recorder.make(">", self, other)

    def __le__(self, other):
        return self.recorder.make("<=", self, other)

    def __ge__(self, other):
        return self.recorder.make(">=", self, other)

    def __eq__(self, other):
        return self.recorder.make("=", self, other)

    def rounded(self, digits):
        """The number rounded, for a sentence."""
        return self.recorder.make("ROUND", self, float(digits))

    def hold(self, sentence, values):
        """Keep a sentence that is to be said unless this step is true."""
        said = self.recorder.where(
            self.recorder.certain(self), "", self.recorder.sentence(sentence, values)
        )
        said.label = ("What is wrong", "checked")
        self.recorder.said.append(said)


class Recorder:
    """Makes steps, each kind of work once. It is also the namespace that steps answer with.

    said: steps that are a sentence where an input is wrong and an empty text where it is
    not, in the order in which a calculation asked.
    """

    def __init__(self):
        self._known = {}
        self._numbers = {}
        self.said = []

    @property
    def count(self):
        """How many steps it has made."""
        return len(self._known) + len(self._numbers)

    def needed_for(self, wholes):
        """Some of its steps and all that they are made of, in the order in which they were made."""
        needed, steps = set(wholes), list(self._known.values())
        for step in reversed(steps):
            if step in needed:
                needed.update(step.parts)
        return [step for step in (*self._numbers.values(), *steps) if step in needed]

    # Making steps

    def make(self, kind, *parts):
        """The step for work of a kind on parts, which may be plain values."""
        if len(parts) == 2:
            return self._make_of_two(kind, *parts)
        steps = tuple([part if part.__class__ is Step else self.step(part) for part in parts])
        key = (kind, *steps)
        known = self._known.get(key)
        return known if known is not None else self._new(key, kind, steps)

    def _make_of_two(self, kind, one, two):
        """The same for two parts, as most work is."""
        if one.__class__ is not Step:
            one = self.step(one)
        if two.__class__ is not Step:
            two = self.step(two)
        key = (kind, one, two)
        known = self._known.get(key)
        return known if known is not None else self._new(key, kind, (one, two))

    def _new(self, key, kind, parts):
        made_now = self._known[key] = Step(self, kind, parts)
        if made is not None:
            made()
        return made_now

    def step(self, value):
        """A step for a value; a step is itself."""
        kind = value.__class__
        if kind is Step:
            return value
        if kind is int:
            value, kind = float(value), float
        if kind is float or isinstance(value, float):
            known = self._numbers.get(value)
            if known is None:
                if math.isnan(value):
                    return self.make("NA")
                known = self._numbers[value] = Step(self, "constant", (), value)
            return known
        # A text of a kind of its own (`Words`) is another step than a plain one, and a plain text.
        key = ("constant", kind, str(value) if isinstance(value, str) else value)
        if key not in self._known:
            self._known[key] = Step(self, "constant", (), value)
        return self._known[key]

    def input(self, key):
        """The step for a cell that the layout knows by a key."""
        full = ("input", key)
        if full not in self._known:
            self._known[full] = Step(self, "input", (), key)
        return self._known[full]

    # Arithmetic, with what needs no cell left out

    def add(self, a, b):
        if _are_worked_out(a, b):
            return self._make_of_two("+", a, b)
        if _number(a) == 0.0:
            return b
        return a if _number(b) == 0.0 else self.make("+", a, b)

    def subtract(self, a, b):
        if _are_worked_out(a, b):
            return self._make_of_two("-", a, b)
        if _number(b) == 0.0:
            return a
        return self.make("minus", b) if _number(a) == 0.0 else self.make("-", a, b)

    def multiply(self, a, b):
        if not _are_worked_out(a, b):
            for number, other in ((_number(a), b), (_number(b), a)):
                if number is None:
                    continue
                if number == 0.0:
                    return self.step(0.0)
                if number == 1.0:
                    return other
                if number == _DEGREE:
                    return self.make("RADIANS", other)
        elif a is b:
            # Whether a sign or a power binds more strongly, programs see in different ways.
            return self.make("^", a.parts[0] if a.kind == "minus" else a, 2.0)
        return self._make_of_two("*", a, b)

    def divide(self, a, b):
        number = _number(b)
        if number == 1.0 or _number(a) == 0.0:
            return a
        return self.make("DEGREES", a) if number == _DEGREE else self.make("/", a, b)

    # The functions that geometry/numbers.py asks a namespace for

    def sqrt(self, x):
        return self.make("SQRT", x)

    def sin(self, x):
        return self.make("SIN", x)

    def cos(self, x):
        return self.make("COS", x)

    def tan(self, x):
        return self.make("TAN", x)

    def log(self, x):
        return self.make("LN", x)

    def abs(self, x):
        return self.make("ABS", x)

    def maximum(self, x, floor):
        return self.make("MAX", x, floor)

    def atan2(self, y, x):
        # A spreadsheet takes x first.
        return self.make("ATAN2", x, y)

    def where(self, condition, if_true, if_false):
        return self.make("IF", condition, if_true, if_false)

    def certain(self, condition):
        """A comparison that is false, and not an error, where what it compares is none.

        Of a choice of comparisons each is made so.
        """
        if condition.kind == "IF":
            return self.where(*map(self.certain, condition.parts))
        for part in condition.parts if condition.kind in ("<", ">", "<=", ">=") else ():
            if part.kind != "constant":
                condition = self.where(self.make("ISNUMBER", part), condition, False)
        return condition

    # Sentences

    def sentence(self, text, values=()):
        """'# ' and a text with a %s for each value, numbers in words, as one step."""
        return self.joined(text, [self.in_words(each) for each in values])

    def in_words(self, number):
        """A number as a text with no more decimals than it needs (`words.py`); or what is none."""
        if number.__class__ is not Step or number.kind == "constant" or _is_words(number):
            return number
        return self.make(IN_WORDS, number, most_decimals(number))

    def joined(self, text, values):
        """'# ' and a text with a %s for each value, which stands there as it is, as one step."""
        parts = ("# " + text).split("%s")
        step = self.step(parts[0].replace("%%", "%"))
        for value, rest in zip(values, parts[1:], strict=True):
            step = self.make("&", step, value)
            if rest:
                step = self.make("&", step, rest.replace("%%", "%"))
        return step

    def first_said(self, sentences):
        """The first sentence that is not empty, or an empty text."""
        result = self.step("")
        for said in reversed(dict.fromkeys(sentences)):
            if is_empty(result):
                result = said
            else:
                result = self._said_or(said, result)
                result.label = result.label or ("What is wrong", "said from here on")
        return result

    def _said_or(self, said, other):
        """A sentence where it is none, else another one.

        Where all that a choice of sentences says is known, its question is asked once.
        """
        fine, words = self._parted(said)
        if fine is None:
            return self.where(self.make("=", said, ""), other, said)
        return self.where(fine, other, words)

    def _parted(self, said):
        """(when nothing is said, what is said else) of a sentence; None for what is not known.

        The first is True, the second None, of an empty text; where something is said in any
        case, the first is False.
        """
        if is_empty(said):
            return True, None
        if _is_said(said):
            return False, said
        if said.kind != "IF":
            return None, None
        condition, *choices = said.parts
        (one, words), (two, others) = map(self._parted, choices)
        if one is None or two is None:
            return None, None
        if words is None:
            return (condition if two is False else self.where(condition, True, two)), others
        if others is None:
            return self.where(condition, one, True), words
        return self.where(condition, one, two), self.where(condition, words, others)


def is_empty(step):
    """Whether a step is an empty text, whatever is typed."""
    return step.kind == "constant" and step.what == ""


def _is_said(step):
    """Whether a step is a sentence in any case."""
    if step.kind == "IF":
        # One that is passed on is a sentence where it begins like one.
        condition, if_true, if_false = step.parts
        passed_on = condition.kind == "=" and condition.parts[0].kind == "LEFT"
        passed_on = passed_on and condition.parts[0].parts[0] is if_true
        return (passed_on or _is_said(if_true)) and _is_said(if_false)
    if step.kind == "&":
        return any(map(_is_said, step.parts))
    return step.kind == "constant" and isinstance(step.what, str) and step.what != ""


def _is_words(step):
    """Whether a step is a text, or a choice of texts."""
    if step.kind == "IF":
        return any(map(_is_words, step.parts[1:]))
    return isinstance(step.what, str) if step.kind == "constant" else step.kind in _TEXTS


_TEXTS = ("&", "LEFT", "MID", IN_WORDS)


def parts_first(wholes, parts_of):
    """Steps and all that they are made of, each once, parts before wholes.

    parts_of: a function of a step that gives those of its parts that count.
    """
    entered = set()
    order = {}
    stack = list(wholes)
    while stack:
        step = stack[-1]
        if step in entered:
            order[stack.pop()] = None
            continue
        entered.add(step)
        for part in parts_of(step):
            # What has been entered before stands in the order by now.
            if part not in entered:
                stack.append(part)
    return list(order)


def _are_worked_out(a, b):
    """Whether two values are steps that are no plain numbers."""
    if a.__class__ is not Step or b.__class__ is not Step:
        return False
    return a.kind != "constant" and b.kind != "constant"


def _number(value):
    """A plain number, or that of a constant step; None for any other value."""
    if value.__class__ is Step:
        value = value.what if value.kind == "constant" else None
    return value if isinstance(value, float) else None
