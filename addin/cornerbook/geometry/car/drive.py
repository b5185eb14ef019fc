"""Drive: motor to ground, what the tyres hold, what the road takes, and how a car gets away.

Speeds are lengths a second, rotation is turns a minute, angles are radians. A torque over speed,
and a pull over road speed, are rows of (at, value, has) with straight lines between them.
"""

from ..numbers import NAN, PI, absolute, atan2, cos, larger, log, ratio, sin, sqrt, where

_NEARLY_EVEN = 0.02
"""A pull that changes by less than this part along a line is summed by a series."""

_TERMS = 9
"""Of the series: the next one is below the rounding of a float."""


def smaller(one, other):
    """The smaller of two numbers of any kind."""
    return where(one < other, one, other)


def along(rows, at):
    """The value at a place on the lines between rows; 0 past the last, the first's before it.

    Rows that have nothing are passed over.
    """
    found, before, value, seen = 0.0, 0.0, 0.0, False
    for here, there, has in rows:
        share = ratio(at - before, here - before, 0.0)
        line = value + share * (there - value)
        first = where(seen, False, at <= here)
        inside = where(seen, where(at > before, at <= here, False), False)
        found = where(has, where(first, there, where(inside, line, found)), found)
        before = where(has, here, before)
        value = where(has, there, value)
        seen = where(has, True, seen)
    return found


def last(rows):
    """The place of the last row that has something."""
    place = 0.0
    for here, _, has in rows:
        place = where(has, here, place)
    return place


def motor_speed(road_speed, gearing, wheel_radius):
    """Turns a minute of the motor, whose gearing is its turns for one of the wheel."""
    return road_speed * gearing * 60.0 / (2.0 * PI * wheel_radius)


def best_gear(torques, gears, road_speed, final, wheel_radius):
    """(torque times gearing, motor speed) in the gear that pulls most.

    gears: (ratio, has). Past the motor's last speed a gear pulls nothing.
    """
    most, turns = -1.0, 0.0
    for gear, has in gears:
        gearing = gear * final
        speed = motor_speed(road_speed, gearing, wheel_radius)
        pull = along(torques, speed) * gearing
        better = where(has, pull > most, False)
        most, turns = where(better, pull, most), where(better, speed, turns)
    return most, turns


def variable(road_speed, low, high, engages, shifts, final, wheel_radius):
    """(ratio, motor speed) of a drive without steps.

    In the low gear the clutch slips until the motor's speed at engaging is reached; then the
    motor speeds up to that at which the ratio begins to change, keeps it to the high gear, and
    speeds up again.
    """
    per_ratio = motor_speed(road_speed, final, wheel_radius)
    held = ratio(shifts, per_ratio, low)
    used = where(held < low, where(held > high, held, high), low)
    turned = per_ratio * used
    return used, where(turned < engages, engages, turned)


def traction(driven, friction, weight, height, front_share, wheelbase, slope, rolling):
    """Most force of the driven wheels along the road, their load growing or falling with it.

    driven: (front, rear), 1 or 0 each. At most what lifts the front axle. What of the force goes
    into rolling moves no load.
    """
    k, c = height / wheelbase, cos(slope)
    front = (front_share + rolling * k) * c * friction / (1.0 + friction * k)
    rear_room = 1.0 - friction * k
    rear = ratio((1.0 - front_share - rolling * k) * c * friction, rear_room, 0.0)
    lifts = (front_share / k + rolling) * c
    rear = where(rear_room > 0.0, smaller(rear, lifts), lifts)
    both = smaller(friction * c, lifts)
    on_front, on_rear = driven
    one = on_front * front + on_rear * rear
    return weight * where(on_front * on_rear > 0.5, both, one)


def road_load(speed, weight, rolling, drag, slope):
    """Force that rolling, air and slope take. drag: force over speed squared."""
    return weight * (rolling * cos(slope) + sin(slope)) + drag * speed * speed


def steepest(pull, driven, friction, weight, height, front_share, wheelbase, rolling):
    """(by the motor, by the tyres, by lifting): slopes on which a car just starts.

    The motor's: W (sin + rolling cos) = pull. The tyres': friction times the load of the driven
    wheels on the slope. The last: on which the front axle bears nothing.
    """
    k = height / wheelbase
    size = sqrt(1.0 + rolling * rolling)
    # The arc sine of the pull over the weight.
    part = pull / (weight * size)
    motor = where(part < 1.0, atan2(part, sqrt(larger(1.0 - part * part, 0.0))), 0.5 * PI) - atan2(
        rolling, 1.0
    )
    lifts = atan2(front_share, k)
    on_front, on_rear = driven
    front = atan2(friction * front_share - rolling, 1.0 + friction * k)
    # A tyre that holds more than its own load's share never lets go before the car lifts.
    rear = atan2(friction * (1.0 - front_share) - rolling, 1.0 - friction * k)
    both = atan2(friction - rolling, 1.0)
    one = on_front * front + on_rear * rear
    return motor, where(on_front * on_rear > 0.5, both, one), lifts


def top_speed(rows):
    """Speed at which the spare pull of rows first falls to 0; NaN where it does not.

    NaN, too, where there is none in the first row: the car does not get away.
    """
    found, before, value, seen = NAN, 0.0, 0.0, False
    open_ = True
    for here, spare, has in rows:
        crosses = where(seen, where(value > 0.0, spare <= 0.0, False), False)
        share = ratio(value, value - spare, 0.0)
        takes = where(has, where(open_, crosses, False), False)
        found = where(takes, before + share * (here - before), found)
        starts = where(has, where(seen, True, spare > 0.0), True)
        open_ = where(takes, False, where(starts, open_, False))
        before = where(has, here, before)
        value = where(has, spare, value)
        seen = where(has, True, seen)
    return found


def _over_line(change):
    """Integrals over u from 0 to 1 of 1 / (1 + change u) and of u / (1 + change u).

    In closed form, and for a small change by their series in it.
    """
    grown = log(1.0 + change)
    nearly = absolute(change) < _NEARLY_EVEN
    apart = where(nearly, 1.0, change)
    one, other = 0.0, 0.0
    for term in range(_TERMS, 0, -1):
        one = 1.0 / term - change * one
        other = 1.0 / (term + 1) - change * other
    first = where(nearly, one, grown / apart)
    second = where(nearly, other, (apart - grown) / (apart * apart))
    return first, second


def time_and_way(rows, mass, speed):
    """(time, way) from the first row's speed to a speed; NaN past the rows or a pull of nothing.

    Between rows the spare pull is a straight line, along which mass over it, and mass times
    speed over it, are summed in closed form.
    """
    time = way = 0.0
    before, value, seen, reached = 0.0, 0.0, False, False
    for here, spare, has in rows:
        inside = where(seen, has, False)
        step = where(inside, larger(smaller(here, speed) - before, 0.0), 0.0)
        slope = ratio(spare - value, here - before, 0.0)
        end = value + slope * step
        pulls = where(value > 0.0, end > 0.0, False)
        # Where nothing is to be summed, any pull will do.
        least = where(step > 0.0, where(pulls, value, NAN), 1.0)
        first, second = _over_line(where(step > 0.0, slope * step / least, 0.0))
        part = mass * step / least
        time = time + part * first
        way = way + part * (before * first + step * second)
        reached = where(inside, where(here >= speed, True, reached), reached)
        before = where(has, here, before)
        value = where(has, spare, value)
        seen = where(has, True, seen)
    return where(reached, time, NAN), where(reached, way, NAN)
