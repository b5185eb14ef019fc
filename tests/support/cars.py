"""Plausible left front corners of small cars, wide: what CHECK must find nothing in. In mm.

Each is built from what a builder would choose (wheel, steering axis, roll centre, swing arm,
lengths of the arms, place of the rack, rod and rocker), so that a sound drawing comes out. The
ground is at z = 0. None of it looks at what CHECK looks at, nor asks the package anything.
"""

import numpy as np

MOUNTS = ("lower arm", "upper arm", "upright", "none")


class _Draw:
    """Random numbers of one car."""

    def __init__(self, generator):
        self.generator = generator

    def between(self, low, high):
        return float(self.generator.uniform(low, high))

    def one_of(self, *choices):
        return choices[self.generator.integers(len(choices))]


def _cross(one, other):
    """What `np.cross` gives of two vectors of three, in a tenth of its time."""
    (a, b, c), (x, y, z) = one, other
    return np.array([b * z - c * y, c * x - a * z, a * y - b * x])


def plausible_cars(seed, n):
    """n blocks of cells, each a tuple of rows with every row that its car has."""
    generator = np.random.default_rng(seed)
    return [plausible_car(_Draw(generator)) for _ in range(n)]


def plausible_car(draw):
    """The rows of one corner."""
    radius = draw.between(200, 340)
    half_track = draw.between(max(350, 1.15 * radius), 750)
    camber, toe = draw.between(-4.5, 2), draw.between(-1.5, 1.5)
    lean, turn = np.radians(camber), np.radians(toe)
    spindle = np.array(
        [np.sin(turn) * np.cos(lean), np.cos(turn) * np.cos(lean), -np.sin(lean)]
    )  # fmt: skip
    # Heights are typed to the millimetre, and a loaded radius is measured no better.
    centre = np.array([draw.between(-15, 15), half_track, radius * np.cos(lean)])
    centre[2] += draw.between(-1.5, 1.5)
    lower, upper = _steering_axis(draw, radius, centre)
    contact = np.array([centre[0], half_track, 0.0])
    arms = _arms(draw, radius, contact, lower, upper)
    spin, velocity = _motion(arms, lower, upper, centre, spindle)
    outer, inner = _tie_rod(draw, radius, centre, lower, upper, spin, velocity)
    rows = [
        ("Wheel centre", *centre),
        ("Tyre radius", radius, "", ""),
        ("Static camber", camber, "", ""),
        ("Static toe", toe, "", ""),
        ("Lower ball joint", *lower),
        ("Lower front pickup", *arms["lower"][0]),
        ("Lower rear pickup", *arms["lower"][1]),
        ("Upper ball joint", *upper),
        ("Upper front pickup", *arms["upper"][0]),
        ("Upper rear pickup", *arms["upper"][1]),
        ("Tie rod outer", *outer),
        ("Tie rod inner", *inner),
    ]
    mount = draw.one_of(*MOUNTS)
    if mount != "none":
        rows += _spring(draw, radius, mount, lower, upper, arms, centre, spin, velocity)
    return tuple((name, *(_cell(cell) for cell in cells)) for name, *cells in rows)


def in_inches(rows):
    """The same block with its lengths in inches."""
    kept = ("Static camber", "Static toe", "Rod mount")
    return tuple(
        row if row[0] in kept else (row[0], *(c if c == "" else c / 25.4 for c in row[1:]))
        for row in rows
    )


def _cell(cell):
    return cell if isinstance(cell, str) else float(cell)


def _steering_axis(draw, radius, centre):
    """Both ball joints, from caster, inclination, trail, scrub and their heights."""
    caster, inclination = np.radians(draw.between(0, 14)), np.radians(draw.between(-2, 19))
    low = max(0.32 * radius, centre[2] - draw.between(0.3, 0.6) * radius)
    # Within the wheel, or above the tyre.
    high = centre[2] + radius * draw.one_of(draw.between(0.25, 0.7), draw.between(0.7, 1.15))
    ground = np.array(
        [centre[0] + draw.between(0, 0.3) * radius, centre[1] - draw.between(-0.15, 0.45) * radius]
    )
    # There must be room for an upper arm beside the middle of the car.
    inclination = min(inclination, np.arctan((ground[1] - 0.7 * radius) / high))

    def at(height):
        return np.array(
            [ground[0] - height * np.tan(caster), ground[1] - height * np.tan(inclination), height]
        )

    return at(low), at(high)


def _arms(draw, radius, contact, lower, upper):
    """{arm: (front pickup, rear pickup)}, from the roll centre and the swing arm's length."""
    roll_centre = draw.between(-0.2, 0.6) * radius
    # Inboard, far away, or as far outboard.
    bend = draw.between(-1 / 15, 1 / 3) / radius
    slope = roll_centre / contact[1]
    # No arm is steeper than a joint or a builder likes.
    for ball in (lower, upper):
        steepest = 0.7 * (1 if ball[2] > slope * ball[1] else -1)
        inboard = contact[1] - ball[1]
        most = (slope + steepest) / (ball[2] + steepest * inboard) if steepest > 0 else 1 / radius
        bend = min(bend, most)
    lengths = draw.between(0.75, 1.4) * radius
    share = draw.between(0.65, 1.05)
    arms = {}
    for arm, ball, length in (("lower", lower, lengths), ("upper", upper, lengths * share)):
        length = min(max(length, 0.5 * radius), 0.9 * ball[1])
        y = ball[1] - length
        # On the line from the ball joint to the instant centre, which lies at the distance
        # 1 / bend inboard of the contact centre, up the line to the roll centre.
        rise = (slope - ball[2] * bend) / (1 - (contact[1] - ball[1]) * bend)
        z = max(ball[2] + rise * length, 0.2 * radius)
        base = draw.between(0.35, 1.6) * radius
        ahead = base * draw.between(0.2, 0.8) + draw.between(-0.3, 0.3) * radius
        # Askew in plan, but not across the car's middle.
        most = min(np.tan(np.radians(20)), 0.9 * y / (base + 0.3 * radius))
        # And sloped in side view, but above the frame's underside.
        side = min(0.2, max(0.0, z - 0.2 * radius) / (base + 0.3 * radius))
        along = np.array([1.0, most * draw.between(-1, 1), side * draw.between(-1, 1)])
        place = np.array([ball[0], y, z])
        arms[arm] = (place + ahead * along, place + (ahead - base) * along)
    return arms


def _motion(arms, lower, upper, centre, spindle):
    """(spin, velocity of the wheel centre) as it rises by one, were the wheel's toe held.

    Four arm legs keep their lengths, the toe stays and the centre rises: six linear equations.
    """
    system, wanted = np.zeros((6, 6)), np.zeros(6)
    row = 0
    for ball, arm in ((lower, "lower"), (upper, "upper")):
        for pickup in arms[arm]:
            link = ball - pickup
            system[row, :3] = link
            system[row, 3:] = _cross(ball - centre, link)
            row += 1
    system[4, 3:] = _cross(spindle, [spindle[1], -spindle[0], 0.0])
    system[5, 2], wanted[5] = 1.0, 1.0
    motion = np.linalg.solve(system, wanted)
    return motion[3:], motion[:3]


def _tie_rod(draw, radius, centre, lower, upper, spin, velocity):
    """(outer end, inner end): ahead or behind, low or high, the rack far out or far in."""
    height = draw.between(max(0.5 * radius, lower[2] - 20), min(1.5 * radius, upper[2] + 10))
    on_axis = lower + (upper - lower) * (height - lower[2]) / (upper[2] - lower[2])
    lever = draw.between(0.2, 0.55) * radius
    aside = draw.between(-0.35, 0.35) * lever
    outer = on_axis + np.array([draw.one_of(-1, 1) * lever, aside, 0.0])
    length = min(draw.between(0.7, 1.9) * radius, 0.97 * outer[1])
    way = velocity + _cross(spin, outer - centre)
    rod = np.array([draw.between(-0.25, 0.25), -1.0, 0.0])
    # Square to the way of the outer end, so that no bump steer is left.
    rod[2] -= rod @ way / way[2]
    if rod[2] < 0:  # the rack stays well above the ground
        length = min(length, (outer[2] - 0.3 * radius) / -rod[2])
    inner = outer + length * rod
    inner[2] += draw.between(-0.035, 0.035) * min(length, radius)
    return outer, inner


def _spring(draw, radius, mount, lower, upper, arms, centre, spin, velocity):
    """Rows of the spring, worked by a rocker or standing on the arm or upright itself."""
    place, speed = _mount(draw, radius, mount, lower, upper, arms, centre, spin, velocity)
    rows = [("Rod mount", mount, "", ""), ("Rod outer", *place)]
    if draw.one_of(True, True, False):
        rocker = _rocker(draw, radius, mount, place, speed)
        if rocker:
            return [*rows, *rocker]
    # A coil-over, leaning inboard.
    way = np.array([draw.between(-0.15, 0.15), -draw.between(0.1, 0.8), 1.0])
    way /= np.linalg.norm(way)
    length = min(draw.between(0.75, 1.3) * radius, 0.95 * place[1] / -way[1])
    return [*rows, ("Spring frame", *(place + way * length))]


def _mount(draw, radius, mount, lower, upper, arms, centre, spin, velocity):
    """(place, velocity) of the rod's outer end."""

    def of_upright(point):
        return velocity + _cross(spin, point - centre)

    if mount == "upright":
        ball = draw.one_of(lower, upper)
        place = ball + np.array(
            [draw.between(-30, 30), -draw.between(0, 40), draw.between(-15, 15)]
        )
        return place, of_upright(place)
    arm, ball = ("lower", lower) if mount == "lower arm" else ("upper", upper)
    front, rear = arms[arm]
    axis = (front - rear) / np.linalg.norm(front - rear)
    foot = front + axis * ((ball - front) @ axis)
    place = foot + (ball - foot) * draw.between(0.55, 0.97)
    place = place + np.array([draw.between(-25, 25), 0.0, draw.between(0, 25)])
    turning = _cross(axis, ball - foot)
    rate = of_upright(ball) @ turning / (turning @ turning)
    return place, _cross(axis, place - foot) * rate


def _rocker(draw, radius, mount, place, speed):
    """Rows of rod, rocker and spring for a motion ratio that is wanted; None where none fits.

    A push rod goes up and a pull rod down; the rocker turns in a plane with the rod in it, or
    nearly so, and the spring's end lies such that the spring is squeezed as the wheel rises.
    """
    for _ in range(20):
        up = -1.0 if mount == "upper arm" else 1.0
        way = np.array([draw.between(-0.15, 0.15), -draw.between(0.4, 1.3), up])
        way /= np.linalg.norm(way)
        along = float(speed @ way)
        ahead = np.array([1.0, draw.between(-0.3, 0.3), draw.between(-0.3, 0.3)])
        axis = ahead - way * (ahead @ way) * draw.between(0.6, 1.0)
        axis /= np.linalg.norm(axis)
        inner = place + way * draw.between(0.7, 1.6) * radius
        # From the pivot to the rod's inner end, about square to the rod.
        square = _cross(axis, way)
        square *= draw.one_of(-1.0, 1.0) / np.linalg.norm(square)
        skew = np.radians(draw.between(-25, 25))
        arm = square * np.cos(skew) + _cross(axis, square) * np.sin(skew)
        rod_arm = draw.between(0.16, 0.4) * radius
        pivot = inner - arm * rod_arm
        # The rocker's turn for each unit of travel, as the rod pushes or pulls it.
        turn = along / (_cross(axis, arm) @ way * rod_arm)
        angle = np.radians(draw.between(50, 130)) * draw.one_of(-1.0, 1.0)
        out = arm * np.cos(angle) + _cross(axis, arm) * np.sin(angle)
        goes = _cross(axis, out) * np.sign(turn)
        skew = np.radians(draw.between(-20, 20))
        spring_arm = draw.between(0.4, 1.05) / abs(turn) / np.cos(skew)
        end = pivot + spring_arm * out
        frame = end + (goes * np.cos(skew) + out * np.sin(skew)) * draw.between(0.55, 1.1) * radius
        points = np.array([inner, pivot, end, frame])
        fits = points[:, 2].min() > 0.25 * radius and points[:, 1].min() > 0
        fits = fits and points[:, 2].max() < 3.4 * radius
        if fits and 0.1 < spring_arm / radius < 0.7:
            return [
                ("Rod inner", *inner),
                ("Rocker pivot", *pivot),
                ("Rocker axis", *(pivot + axis * draw.between(20, 60))),
                ("Spring rocker", *end),
                ("Spring frame", *frame),
            ]
    return None
