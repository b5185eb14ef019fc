"""Arrays of any library as numbers that the geometry works on.

The geometry asks a number for its namespace and is served by NumPy's own arrays as they stand.
Another library's array is wrapped here, so that no more is asked of it than the array API
standard 2023.12 has (https://data-apis.org/array-api/2023.12/): no plain numbers among a
function's arguments, no boolean mask on the left of an assignment, the same kind of number on
both sides. Nor need there be values yet: a library that compiles a function (JAX's jit) calls it
with arrays that have only a shape, and with these nothing may depend on a value.
"""

from .geometry.numbers import NAN, mapped


def of_library(*values):
    """The first value that is an array of a library that answers `__array_namespace__`, or None."""
    return next((value for value in values if hasattr(value, "__array_namespace__")), None)


class Numbers:
    """An array as the geometry takes it: operators, and the functions of `Namespace`."""

    __slots__ = ("array", "namespace")

    def __init__(self, array, namespace):
        self.array = array
        self.namespace = namespace

    def __array_namespace__(self, **_):
        return self.namespace

    def __getitem__(self, place):
        return Numbers(self.array[place, ...], self.namespace)

    @property
    def shape(self):
        return self.array.shape

    def __neg__(self):
        return Numbers(-self.array, self.namespace)


def _operator(name):
    def work(self, other):
        other = other.array if isinstance(other, Numbers) else other
        return Numbers(getattr(self.array, name)(other), self.namespace)

    work.__name__ = name
    return work


for _name in ("add", "radd", "sub", "rsub", "mul", "rmul", "truediv", "rtruediv",
              "lt", "gt", "le", "ge", "eq", "ne", "and", "or"):  # fmt: skip
    setattr(Numbers, f"__{_name}__", _operator(f"__{_name}__"))


def made_like(array):
    """{argument of a library's functions: what makes another array like this one}."""
    # Arrays without values are on no device yet.
    return {"dtype": array.dtype, "device": getattr(array, "device", None)}


def _has_values(array):
    """Whether an array's numbers can be looked at; what is only traced says that they cannot."""
    try:
        bool(array.__array_namespace__().any(array == array))
    except TypeError:
        return False
    return True


class Namespace:
    """The functions that the geometry asks for, by those of a library's namespace.

    like: an array of the library, of real floating numbers; all others are made like it.
    asked_again: whether some numbers can be worked out again; it takes a look at values.
    """

    def __init__(self, like):
        self.library = like.__array_namespace__()
        self.asked_again = _has_values(like)
        self._like = made_like(like)

    def _plain(self, value):
        """A number, or `Numbers`, as an array of the library."""
        if isinstance(value, Numbers):
            return value.array
        return self.library.asarray(value, **self._like)

    def asarray(self, value):
        """`Numbers` of a number, or of an array of the library."""
        return Numbers(self._plain(value), self)

    def sqrt(self, x):
        return Numbers(self.library.sqrt(x.array), self)

    def sin(self, x):
        return Numbers(self.library.sin(x.array), self)

    def cos(self, x):
        return Numbers(self.library.cos(x.array), self)

    def tan(self, x):
        return Numbers(self.library.tan(x.array), self)

    def log(self, x):
        return Numbers(self.library.log(x.array), self)

    def abs(self, x):
        return Numbers(self.library.abs(x.array), self)

    def maximum(self, x, floor):
        return Numbers(self.library.maximum(*map(self._plain, (x, floor))), self)

    def atan2(self, y, x):
        return Numbers(self.library.atan2(*map(self._plain, (y, x))), self)

    def where(self, condition, if_true, if_false):
        if isinstance(if_true, bool) or isinstance(if_false, bool):
            if_true, if_false = map(self._truth, (if_true, if_false))
        one, other = map(self._plain, (if_true, if_false))
        return Numbers(self.library.where(condition.array, one, other), self)

    def _truth(self, value):
        if isinstance(value, Numbers):
            return value
        return Numbers(self.library.asarray(value, device=self._like["device"]), self)

    def reshape(self, x, shape):
        return Numbers(self.library.reshape(x.array, shape), self)

    def stack(self, arrays):
        return Numbers(self.library.stack([each.array for each in arrays]), self)

    def broadcast_to(self, x, shape):
        return Numbers(self.library.broadcast_to(self._plain(x), shape), self)

    def broadcast_arrays(self, *arrays):
        plain = self.library.broadcast_arrays(*(each.array for each in arrays))
        return [Numbers(each, self) for each in plain]

    def again(self, needed, work, given, found):
        """What was found, with `work(*given)` in its place where needed; see `numbers.again`.

        Those elements are gathered into arrays of one axis, and come back by their number. Where
        no value is known, none can be left out, and what is needed (a linkage followed to its
        end in some hundred steps) is far too much for all: it is NaN.
        """
        library, mask = self.library, needed.array
        if not self.asked_again:
            lost = self._plain(NAN)
            return mapped(
                lambda old: Numbers(library.where(mask, lost, self._plain(old)), self), found
            )
        flat = library.reshape(mask, (-1,))
        numbers = library.cumulative_sum(library.astype(flat, library.int64))
        if flat.shape[0] == 0 or int(numbers[-1]) == 0:
            return found
        places = library.where(flat, numbers - 1, library.zeros_like(numbers))

        def picked(number):
            if isinstance(number, float):
                return number
            whole = library.broadcast_to(number.array, mask.shape)
            return Numbers(library.reshape(whole, (-1,))[flat], self)

        def put(old, new):
            new = library.broadcast_to(self._plain(new), (int(numbers[-1]),))
            new = library.reshape(library.take(new, places, axis=0), mask.shape)
            return Numbers(library.where(mask, new, self._plain(old)), self)

        return mapped(put, found, work(*mapped(picked, given)))
