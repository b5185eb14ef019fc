"""The numbers of a drawing's file, held to be numbers.

The library that reads drawings mends what it can, and would make 52.0 of a damaged 52l.0: a
coordinate that nobody drew.
"""

import math

from ...file.trouble import Trouble

# Group codes whose values are numbers with a decimal point (the DXF reference, group code value
# types; from memory).
_RANGES = ((10, 59), (110, 149), (210, 239), (460, 469), (1010, 1059))

# Those whose values are whole numbers, such as the unit of length; likewise.
_WHOLE = ((60, 79), (90, 99), (160, 179), (270, 289), (370, 389), (400, 409), (420, 429),
          (440, 459), (1060, 1071))  # fmt: skip


def hold_numbers(content, path):
    """Raise `Trouble` with the line for a value that should be a number and is none.

    content: the bytes of the file; a binary drawing holds its numbers as such and is let by.
    """
    if b"\0" in content[:64]:
        return
    lines = content.splitlines()
    for number in range(0, len(lines) - 1, 2):
        code = lines[number].strip()
        if not code.isdigit() or len(code) > 4:
            return  # no pairs of code and value from here on; what reads them says so
        value = lines[number + 1].strip()
        if _is_in(int(code), _RANGES):
            is_good, wanted = _is_number(value), "a number"
        else:
            is_good = not _is_in(int(code), _WHOLE) or _is_whole(value)
            wanted = "a whole number"
        if not is_good:
            shown = value[:40].decode("utf-8", "replace")
            raise Trouble(
                f'{path}, line {number + 2}: "{shown}" stands where {wanted} was expected'
            )


def _is_in(code, ranges):
    return any(low <= code <= high for low, high in ranges)


def _is_whole(value):
    return value.lstrip(b"+-").isdigit() and len(value) < 20


def _is_number(value):
    try:
        return b"_" not in value and math.isfinite(float(value))
    except ValueError:
        return False
