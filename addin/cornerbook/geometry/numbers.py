"""The operations that the geometry is written in, for every kind of number.

The geometry is written once and evaluated with more than one kind of number. A
Python float goes to ``math``. Anything else is asked for its own functions, as
the Python array API standard has it (``x.__array_namespace__()``), so NumPy
arrays are served without importing NumPy here, and so is any other kind of
number that answers that call, such as one that records what was done to it.

Two habits keep one text good for all of them. Values are chosen with `where`,
never with ``if``. What has no real answer (the square root of a negative number,
a circle that does not reach a sphere) is NaN and passes through what follows.
"""

import math

PI = math.pi
NAN = math.nan
INFINITY = math.inf

_DEGREE = math.pi / 180.0


def sqrt(x):
    """Square root; NaN for a negative number."""
    if isinstance(x, float):
        return math.sqrt(x) if x >= 0.0 else NAN
    return x.__array_namespace__().sqrt(x)


def sin(x):
    """Sine of an angle in radians; NaN for one that is beyond all numbers."""
    if isinstance(x, float):
        return math.sin(x) if -INFINITY < x < INFINITY else NAN
    return x.__array_namespace__().sin(x)


def cos(x):
    """Cosine of an angle in radians; NaN for one that is beyond all numbers."""
    if isinstance(x, float):
        return math.cos(x) if -INFINITY < x < INFINITY else NAN
    return x.__array_namespace__().cos(x)


def tan(x):
    """Tangent of an angle in radians; NaN for one that is beyond all numbers."""
    if isinstance(x, float):
        return math.tan(x) if -INFINITY < x < INFINITY else NAN
    return x.__array_namespace__().tan(x)


def log(x):
    """Natural logarithm; NaN for 0 and less, and for what is beyond all numbers."""
    if isinstance(x, float):
        return math.log(x) if 0.0 < x < INFINITY else NAN
    return x.__array_namespace__().log(x)


def atan2(y, x):
    """Angle in radians of the point (x, y), from -pi to pi."""
    if isinstance(y, float) and isinstance(x, float):
        return math.atan2(y, x)
    return _namespace(y, x).atan2(y, x)


def absolute(x):
    """The size of a number, without its sign."""
    if isinstance(x, float):
        return abs(x)
    return x.__array_namespace__().abs(x)


def larger(x, floor):
    """The larger of a number and a plain float; a NaN stays NaN."""
    if isinstance(x, float):
        # Written so that a NaN is returned: every comparison with it is false.
        return floor if x < floor else x
    return x.__array_namespace__().maximum(x, floor)


def where(condition, if_true, if_false):
    """Choose by a condition; both choices are evaluated, whichever is taken."""
    if isinstance(condition, bool):
        return if_true if condition else if_false
    return condition.__array_namespace__().where(condition, if_true, if_false)


def ratio(numerator, denominator, otherwise):
    """The quotient, or a stand-in where the denominator is zero."""
    if isinstance(denominator, float):
        return numerator / denominator if denominator else otherwise
    nothing = denominator == 0.0
    if isinstance(nothing, bool):
        # A number made of floats (a dual): its division by zero would be an error.
        return otherwise if nothing else numerator / denominator
    return where(nothing, otherwise, numerator / denominator)


def again(needed, work, given, found, few=0, most=1.0):
    """What was found, with what `work(*given)` gives in its place where that is needed.

    needed: a condition. given, found: a tuple of numbers and of things made of numbers. A float
    is worked out again only if it is needed. Of arrays those elements are that need it,
    gathered from all that is given into arrays of one axis: up to `few` of them one by one, as
    floats; but where more than the part `most` needs it, all are, as they stand. A kind of
    number that cannot leave anything out (a recorded step, a dual) keeps what was found,
    unless its namespace has an `again` of its own.

    This and `first_found` are the places where work is left out because of a value.
    """
    if isinstance(needed, bool):
        return work(*given) if needed else found
    namespace = needed.__array_namespace__()
    own = getattr(namespace, "again", None)
    if own is not None:
        return own(needed, work, given, found)
    if not asked_again(needed):
        return found
    count = int(namespace.count_nonzero(needed))
    if count == 0:
        return found
    if count > few and count > most * needed.size:
        return mapped(lambda old, new: namespace.where(needed, new, old), found, work(*given))

    def picked(number):
        if isinstance(number, float):
            return number
        return namespace.broadcast_to(number, needed.shape)[needed]

    def put(old, new):
        whole = namespace.asarray(namespace.broadcast_to(old, needed.shape), copy=True)
        whole[needed] = new
        return whole

    gathered = mapped(picked, given)
    if count > few:
        return mapped(put, found, work(*gathered))
    singly = [work(*mapped(lambda n, i=i: n if isinstance(n, float) else n[i].item(), gathered))
              for i in range(count)]  # fmt: skip
    return mapped(lambda old, *new: put(old, namespace.asarray(new)), found, *singly)


def first_found(work, cases, of):
    """What `work` gives for the first of some cases for which it finds something, or NaN.

    cases: tuples of numbers, alike. work: takes one and gives a thing made of numbers, NaN
    throughout where it finds none. of: the number in a thing that tells. Floats are worked
    out one after the other; arrays, of one axis, for all cases side by side.
    """
    kinds = [number for case in cases for number in case if not isinstance(number, float)]
    if not kinds:
        for case in cases:
            thing = work(*case)
            if of(thing) == of(thing):
                break
        return thing
    namespace = kinds[0].__array_namespace__()

    def beside(*numbers):
        rows = (namespace.reshape(namespace.asarray(number), (-1,)) for number in numbers)
        return namespace.stack(namespace.broadcast_arrays(*rows))

    thing = work(*map(beside, *cases))
    tells = of(thing)

    def first(number):
        rows = namespace.broadcast_to(number, tells.shape)
        chosen = rows[-1]
        for row in range(len(cases) - 2, -1, -1):
            chosen = namespace.where(tells[row] == tells[row], rows[row], chosen)
        return chosen

    return mapped(first, thing)


def asked_again(number):
    """Whether `again` can work something out for some numbers of this kind only."""
    if isinstance(number, float):
        return True
    namespace = number.__array_namespace__()
    able = hasattr(namespace, "again") or hasattr(namespace, "broadcast_to")
    return getattr(namespace, "asked_again", able)


def mapped(change, thing, *alike):
    """A copy of a thing with every number in it, also within its parts, changed by a function.

    change: takes the number, and those in its place in the things alike. What is made of
    numbers: tuples, and objects of the geometry. Words, truths and None stay as they are.
    """
    if isinstance(thing, float) or hasattr(thing, "__array_namespace__"):
        return change(thing, *alike)
    if isinstance(thing, tuple):
        return tuple(map(lambda *parts: mapped(change, *parts), thing, *alike))
    fields = getattr(thing, "__slots__", None) or getattr(thing, "__dict__", None)
    if not fields:
        return thing
    copy = object.__new__(type(thing))
    for name in fields:
        parts = (getattr(each, name) for each in (thing, *alike))
        setattr(copy, name, mapped(change, *parts))
    return copy


def sign(x):
    """1.0 for zero or more, -1.0 below it."""
    return where(x >= 0.0, 1.0, -1.0)


def degrees(x):
    """An angle in radians, in degrees."""
    return x / _DEGREE


def radians(x):
    """An angle in degrees, in radians."""
    return x * _DEGREE


def _namespace(*values):
    for value in values:
        if not isinstance(value, float):
            return value.__array_namespace__()
    raise TypeError("expected a float or a number with an array namespace")
