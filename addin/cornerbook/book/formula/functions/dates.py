"""Days and times of day, as serial numbers: days since 30 December 1899.

So Calc counts them. Excel has a 29 February 1900 that never was, and is one day ahead of that
until then; from March 1900 on both agree.
"""

import math
from datetime import date

from ...file.cell_error import CellError
from .. import near
from ..cell_values import DAY_ZERO, moment_in, number_of
from .entry import function

_LAST = date(9999, 12, 31).toordinal() - DAY_ZERO


def day_of(serial):
    """The `date` of a serial number."""
    number = math.floor(serial)
    if not 1 - DAY_ZERO <= number <= _LAST:
        raise CellError("#NUM!")
    return date.fromordinal(number + DAY_ZERO)


def _serial(day):
    return float(day.toordinal() - DAY_ZERO)


@function("DATE", "whole", "whole", "whole")
def from_parts(year, month, day):
    """A month or a day beyond its end runs on. A year of two digits is from 1930 to 2029."""
    if year < 0:
        raise CellError("#NUM!")
    if year < 100:
        # As in Calc; Excel adds 1900.
        year += 2000 if year < 30 else 1900
    months = year * 12 + month - 1
    year, month = divmod(months, 12)
    if not 1 <= year <= 9999:
        raise CellError("#NUM!")
    serial = _serial(date(year, month + 1, 1)) + day - 1
    if not 1 - DAY_ZERO <= serial <= _LAST:
        raise CellError("#NUM!")
    return serial


@function("YEAR", "number")
def year(serial):
    return float(day_of(serial).year)


@function("MONTH", "number")
def month(serial):
    return float(day_of(serial).month)


@function("DAY", "number")
def day(serial):
    return float(day_of(serial).day)


_FIRST_WEEKDAY = {1: 6, 2: 0, 3: 0, 11: 0, 12: 1, 13: 2, 14: 3, 15: 4, 16: 5, 17: 6}
"""The day (Monday is 0) with which each way to count weekdays begins."""


@function("WEEKDAY", "number", "whole?")
def weekday(serial, way=1):
    if way not in _FIRST_WEEKDAY:
        raise CellError("#NUM!")
    number = (day_of(serial).weekday() - _FIRST_WEEKDAY[way]) % 7
    return float(number if way == 3 else number + 1)


@function("WEEKNUM", "number", "whole?")
def week(serial, way=1):
    """By the weekday with which a week begins; 21 for weeks as ISO 8601 has them."""
    there = day_of(serial)
    if way in (21, 150):
        return float(there.isocalendar()[1])
    if way not in _FIRST_WEEKDAY or way == 3:
        raise CellError("#NUM!")
    new_year = date(there.year, 1, 1)
    before = (new_year.weekday() - _FIRST_WEEKDAY[way]) % 7
    return float((there.timetuple().tm_yday - 1 + before) // 7 + 1)


@function("ISOWEEKNUM", "number")
def iso_week(serial):
    return float(day_of(serial).isocalendar()[1])


@function("DAYS", "number", "number")
def days_between(last, first):
    return float(math.floor(last) - math.floor(first))


@function("EDATE", "number", "whole")
def months_later(serial, months):
    """The same day of another month, or that month's last."""
    return _serial(_moved(day_of(serial), months))


@function("EOMONTH", "number", "whole")
def end_of_month(serial, months):
    there = _moved(day_of(serial).replace(day=1), months)
    return _serial(there.replace(day=_last_day(there.year, there.month)))


def _moved(there, months):
    year, month = divmod(there.year * 12 + there.month - 1 + months, 12)
    if not 1 <= year <= 9999:
        raise CellError("#NUM!")
    return date(year, month + 1, min(there.day, _last_day(year, month + 1)))


def _last_day(year, month):
    if month == 12:
        return 31
    return date.fromordinal(date(year, month + 1, 1).toordinal() - 1).day


@function("DATEDIF", "number", "number", "text")
def difference(first, last, unit):
    """Whole days, months or years from one day to another: "d", "m", "y"."""
    one, other = day_of(first), day_of(last)
    if one > other:
        raise CellError("#NUM!")
    unit = unit.lower()
    if unit == "d":
        return float((other - one).days)
    months = (other.year - one.year) * 12 + other.month - one.month - (other.day < one.day)
    if unit not in ("m", "y", "ym"):
        raise CellError("#NUM!")
    return float({"m": months, "y": months // 12, "ym": months % 12}[unit])


# Times of day


def clock_of(serial):
    """(hours, minutes, seconds) of a serial number's part of a day."""
    part = serial - math.floor(serial)
    seconds = int(near.floor(part * 86400.0))
    return seconds // 3600 % 24, seconds // 60 % 60, seconds % 60


@function("HOUR", "number")
def hour(serial):
    return float(clock_of(serial)[0])


@function("MINUTE", "number")
def minute(serial):
    return float(clock_of(serial)[1])


@function("SECOND", "number")
def second(serial):
    return float(clock_of(serial)[2])


@function("TIME", "whole", "whole", "whole")
def clock(hours, minutes, seconds):
    """A part of a day; whole days are left out."""
    found = (hours * 3600 + minutes * 60 + seconds) % 86400
    return found / 86400.0


@function("DATEVALUE", "text")
def date_in(text):
    """Of a text with an ISO date."""
    return float(math.floor(_moment(text)))


@function("TIMEVALUE", "text")
def time_in(text):
    """Of a text with a time of day."""
    return math.modf(_moment(text))[0]


def _moment(text):
    found = moment_in(text.strip(" "))
    if found is None:
        number_of(text)  # says so of a date that only some languages read
        raise CellError("#VALUE!")
    return found
