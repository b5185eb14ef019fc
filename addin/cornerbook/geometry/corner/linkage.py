"""A double-wishbone corner as a linkage: where the upright is for a travel and a rack.

Each arm turns about the line through its two inboard pickups. The upright is
held by the two outer ball joints and by the tie rod, whose inner end moves
sideways with the rack. Six lengths and one height settle the pose:

1. The lower ball joint runs on a circle about the lower arm's axis. Its height
   is the one unknown; with it, the place on the circle follows directly.
2. The upper ball joint runs on a circle about the upper arm's axis and stays at
   its distance from the lower one: a circle meets a sphere.
3. The tie-rod outer end runs on a circle about the steering axis and stays at
   the rod's length from the inner end: again a circle meets a sphere.
4. The wheel centre is fixed in the frame of those three points.

The height of the lower ball joint is then the one that puts the wheel centre at
the asked travel. Travel is very nearly a straight line in that height (its slope
is near one and bends only with the camber and the steering of the wheel), so a
fixed number of trials reaches full accuracy: the first at the height as drawn plus
the travel, then a secant step, then inverse quadratic interpolation through the
last three (R. P. Brent, *Algorithms for Minimization Without Derivatives*, 1973,
chapter 4; from memory). Where two assemblies exist, the drawn one is followed.

All that holds away from the ends of the reach. A place found there is sure; one that is not
(something stands nearly in line, or the trials have not settled) is tried with more trials and
then followed from the drawn one (`follow.py`), which tells whether it can be reached.
"""

from ..numbers import NAN, absolute, again, asked_again, ratio, sign, sqrt, where
from ..vec import Vec, from_frame, in_frame
from .circle import Circle, bounded_root
from .follow import followed
from .heights import WheelAt
from .pose import Pose
from .way import FEW, TOLERANCE

# Four reach the rounding of a float on all but one in a thousand poses of ordinary corners over
# +-80 mm of travel and 40 degrees of steer. Six do so on all but one in some thousands of wild
# ones, whose arms stand near the end of their reach: for a kind of number that cannot be asked
# again. Eight are the second attempt of the others.
TRIALS = 4
TRIALS_AT_ONCE = 6
MORE_TRIALS = 8

# The trials have settled if they miss by no more than this part of the upright's height: some
# hundred roundings. The second holds where no more can be tried.
SETTLED = 2e-15
SETTLED_AGAIN = 1e-13

# ... and if what is missed rises, at the trials, at least this much for each unit of height;
# away from the ends of the reach it rises by about one.
STEEP = 0.3
_BESIDE = 0.02
ROUNDING2 = 1e-20

# A place on the drawn side is sure if nothing there stands within some 6 degrees of being in
# line with what it carries, nor within some 21 degrees as drawn: by the square of the tangent.
CLEAR2 = 0.01
CLEAR2_DRAWN = 0.15


class Linkage:
    """A corner's points as drawn, and what follows from them for every pose.

    All points are `Vec`, in any one unit of length, of a left-hand corner;
    `spindle` is the unit direction of the wheel's axis, outboard, and `radius` the
    wheel's loaded radius, `crown` the radius of its tread's section. Points may be
    floats (one corner) or arrays (many corners at once).
    """

    def __init__(
        self,
        lower_ball,
        lower_front,
        lower_rear,
        upper_ball,
        upper_front,
        upper_rear,
        tie_outer,
        tie_inner,
        wheel_centre,
        spindle,
        radius,
        crown=0.0,
    ):
        self.lower_ball = lower_ball
        self.radius = radius
        self.crown = crown
        self.tie_inner = tie_inner

        self.lower = lower = Circle(lower_ball, lower_front, lower_rear)
        self.lower_level = lower.level * sign(lower.arm.dot(lower.level))
        # Per unit of height: the way along the rising direction, and its square.
        self.lower_slope = lower.rising / lower.rising.z
        self.lower_stretch = 1.0 / (lower.rising.z * lower.rising.z)

        self.upper = upper = Circle(upper_ball, upper_front, upper_rear)
        upright = upper_ball - lower_ball
        upright2 = upright.dot(upright)
        self.upper_half = 0.5 * (upper.radius2 - upright2)
        self.upper_side = sign(upper.axis.cross(lower_ball - upper.centre).dot(upper.arm))

        # Upright: the tie-rod end and the wheel centre in the frame of the axis.
        self.upright_length = sqrt(upright2)
        self.upright_inverse = 1.0 / self.upright_length
        self.upright_inverse2 = self.upright_inverse * self.upright_inverse
        axis = upright * self.upright_inverse
        self.tie_offset = (tie_outer - lower_ball).dot(axis)
        lever = tie_outer - lower_ball - axis * self.tie_offset
        rod = tie_inner - tie_outer
        self.rod_way = sign(tie_outer.y - tie_inner.y)
        self.lever = lever
        self.tie_radius2 = lever.dot(lever)
        self.tie_half = 0.5 * (self.tie_radius2 - rod.dot(rod))
        self.tie_side = sign(axis.cross(tie_inner - lower_ball).dot(lever))
        self.wheel = in_frame(wheel_centre - lower_ball, axis, lever)
        self.spindle = in_frame(spindle, axis, lever)
        self.wheel_height = wheel_centre.z
        self.drawn_centre = wheel_centre
        self.drawn_spindle = spindle
        self._doubt = None

    def lower_at(self, height, root=sqrt):
        """The lower ball joint when it is at this height."""
        centre = self.lower.centre
        level = self.lower_level
        slope = self.lower_slope
        rise = height - centre.z
        reach = root(self.lower.radius2 - rise * rise * self.lower_stretch)
        return Vec(
            centre.x + level.x * reach + slope.x * rise,
            centre.y + level.y * reach + slope.y * rise,
            height,
        )

    def upper_for(self, lower, root=sqrt):
        """The upper ball joint for a place of the lower one."""
        return self._upper_for(lower, root)[0]

    def _upper_for(self, lower, root):
        """(the upper ball joint, the shares of the span and across it by which it lies there)."""
        centre = self.upper.centre
        level = self.upper.level
        rising = self.upper.rising
        span = lower - centre
        # The lower ball joint as seen in the plane of the upper one's circle.
        p = span.x * level.x + span.y * level.y
        q = span.dot(rising)
        reach2 = p * p + q * q
        half = self.upper_half + 0.5 * span.dot(span)
        side = self.upper_side * root(self.upper.radius2 * reach2 - half * half)
        a = half / reach2
        b = side / reach2
        flat = p * a - q * b
        high = q * a + p * b
        upper = Vec(
            centre.x + level.x * flat + rising.x * high,
            centre.y + level.y * flat + rising.y * high,
            centre.z + rising.z * high,
        )
        return upper, a, b

    def turn(self, lower, axis, inner, root=sqrt):
        """How far the upright has turned about the steering axis to suit the rod.

        Returns `flat`, the part of the way from the axis to the rod's inner end
        that is square to the axis, and the shares `a`, `b` by which the lever
        (from the axis to the rod's outer end) is a*flat + b*(axis x flat).
        """
        span = inner - lower
        along = span.dot(axis)
        flat = span - axis * along
        flat2 = span.dot(span) - along * along
        past = along - self.tie_offset
        half = self.tie_half + 0.5 * (flat2 + past * past)
        side = self.tie_side * root(self.tie_radius2 * flat2 - half * half)
        return flat, half / flat2, side / flat2

    def wheel_height_at(self, height, inner):
        """Height of the wheel centre for a trial height of the lower ball joint."""
        lower = self.lower_at(height, bounded_root)
        upper = self.upper_for(lower, bounded_root)
        axis = (upper - lower) * self.upright_inverse
        flat, a, b = self.turn(lower, axis, inner, bounded_root)
        across_z = axis.x * flat.y - axis.y * flat.x
        along, lever, across = self.wheel
        return (
            height
            + along * axis.z
            + (lever * a - across * b) * flat.z
            + (lever * b + across * a) * across_z
        )

    def pose(self, travel, rack):
        """The `Pose` of the upright; NaN throughout where the linkage cannot close.

        travel: rise of the wheel centre against the body. rack: how far the rack
        has moved to the left. Floats or arrays, in the unit of the points.
        """
        inner = self.inner_end(rack)
        wanted = self.wheel_height + travel
        first = self.lower_ball.z + travel

        def miss(height):
            return self.wheel_height_at(height, inner) - wanted

        height, flat = self._trials(first, miss, TRIALS)
        height = self._sure_alone(height, first, miss)
        missed = WheelAt(wanted)
        pose, unsure = self._assembled(height, inner, missed, SETTLED, flat)
        return again(unsure > 0.0, _slowly, (self, first, missed, rack), pose, FEW)

    def pose_at(self, height, travel, rack):
        """The `Pose` as for `pose`, the height of the lower ball joint there being known."""
        missed = WheelAt(self.wheel_height + travel)
        return self._assembled(height, self.inner_end(rack), missed, SETTLED, 0.0)[0]

    def pose_where(self, first, missed, rack):
        """The `Pose` where a height that is taken of the wheel is met; NaN where none closes.

        missed: as for `lying.Links`; it must rise about as fast as the lower ball joint does.
        first: the height of the lower ball joint to try first. rack: as for `pose`.
        """
        pose, unsure = self.tried(first, missed, rack)
        return again(unsure > 0.0, _slowly, (self, first, missed, rack), pose, FEW)

    def tried(self, first, missed, rack, trials=TRIALS, settled=SETTLED):
        """(the `Pose` found by a number of trials, more than nothing where it is not sure).

        settled: by how much may be missed, as a part of the upright's height.
        """
        inner = self.inner_end(rack)

        def miss(height):
            return missed(*self.wheel_at(height, inner))

        height, flat = self._trials(first, miss, trials)
        height = self._sure_alone(height, first, miss)
        pose, unsure = self._assembled(height, inner, missed, settled, flat)
        # What is missed may rise where the wheel centre has turned back.
        step = _BESIDE * self.upright_length
        rise = self.wheel_height_at(height + step, inner) - pose.wheel_centre.z
        return pose, where(rise >= STEEP * step, unsure, 1.0)

    def inner_end(self, rack):
        """The rod's inner end, the rack having moved."""
        return Vec(self.tie_inner.x, self.tie_inner.y + rack, self.tie_inner.z)

    def wheel_at(self, height, inner):
        """Wheel centre and spindle for a trial height of the lower ball joint."""
        lower, _, axis, lever, square = self._frame(height, inner, bounded_root)[:5]
        centre = lower + from_frame(self.wheel, axis, lever, square)
        return centre, from_frame(self.spindle, axis, lever, square)

    def height_for(self, first, missed):
        """The height of the lower ball joint at which nothing is missed, from a first trial."""
        return self._trials(first, missed, TRIALS_AT_ONCE)[0]

    def _trials(self, oldest, missed, trials):
        """(the height of the lower ball joint, how much too flat what is missed rises to there).

        The second is above a rounding where it rises slower than `STEEP` between any trial and
        the next: it may then have turned back.
        """
        oldest_miss = missed(oldest)
        older = oldest - oldest_miss
        older_miss = missed(older)
        if not asked_again(older_miss):
            trials = TRIALS_AT_ONCE
        flat = oldest_miss * (older_miss - (1.0 - STEEP) * oldest_miss)
        slope = ratio(older - oldest, older_miss - oldest_miss, 1.0)
        height = older - older_miss * slope
        for _ in range(trials - 2):
            miss = missed(height)
            older_slope = slope
            step, rise = height - older, miss - older_miss
            slope = ratio(step, rise, older_slope)
            bend = ratio(slope - older_slope, miss - oldest_miss, 0.0)
            flatter = step * (STEEP * step - rise)
            flat = where(flat > flatter, flat, flatter)
            oldest_miss = older_miss
            older, older_miss = height, miss
            height = height - miss * (slope - oldest_miss * bend)
        return height, flat * self.upright_inverse2

    def _sure_alone(self, height, first, miss):
        """A height found, for a kind of number that cannot be asked again; else as it is.

        Where no place on the drawn side is sure, only the drawn place itself is kept.
        """
        if asked_again(height):
            return height
        stays = absolute(miss(first)) <= TOLERANCE * self.upright_length
        return where(self.doubt > 0.0, where(stays, height, NAN), height)

    def _frame(self, height, inner, root=sqrt):
        """The upright's joints and frame: lower, upper, axis, tie-rod lever, axis x lever.

        And the shares by which the upper ball joint and the lever lie aside of their lines.
        """
        lower = self.lower_at(height, root)
        upper, upper_a, upper_b = self._upper_for(lower, root)
        axis = (upper - lower) * self.upright_inverse
        flat, a, b = self.turn(lower, axis, inner, root)
        across = axis.cross(flat)
        lever = flat * a + across * b
        square = across * a - flat * b
        return lower, upper, axis, lever, square, (upper_a, upper_b), (a, b)

    def _assembled(self, height, inner, missed, settled, flat):
        """(the `Pose` for a height of the lower ball joint, more than nothing where not sure).

        settled: see `tried`. flat: see `_trials`.
        """
        lower, upper, axis, lever, square, upper_shares, tie_shares = self._frame(height, inner)
        centre = lower + from_frame(self.wheel, axis, lever, square)
        spindle = from_frame(self.spindle, axis, lever, square)
        miss = absolute(missed(centre, spindle)) * self.upright_inverse
        # Asked this way round, a centre that is NaN (a rod that does not reach) is no hit.
        hit = miss <= TOLERANCE
        tie_outer = lower + axis * self.tie_offset + lever
        # A rack moved past the upright closes the linkage again: the wheel turned about past
        # a quarter turn, or the rod pointing the other way. No steering carries it there.
        same_way = (tie_outer.y - inner.y) * self.rod_way > 0.0
        passed = where(same_way, where(spindle.y > 0.0, 0.0, NAN), NAN)
        # Added to a place, this leaves it as it is or makes it NaN.
        doubt = where(hit, passed, NAN)
        pose = Pose(
            lower=lower.shifted(doubt),
            upper=upper.shifted(doubt),
            tie_outer=tie_outer.shifted(doubt),
            tie_inner=inner,
            wheel_centre=centre.shifted(doubt),
            spindle=spindle.shifted(doubt),
            radius=self.radius,
            crown=self.crown,
        )
        unsure = self._near_an_end(height - self.lower.centre.z, upper_shares, tie_shares, CLEAR2)
        if not asked_again(height):
            settled = SETTLED_AGAIN
        # Asked this way round, what is NaN is not sure.
        unsure = where(miss + doubt <= settled, where(flat <= ROUNDING2, unsure, 1.0), 1.0)
        return pose, self.doubt + unsure

    @property
    def doubt(self):
        """More than nothing where no place on the drawn side is sure.

        So it is where something is drawn nearly in line with what it carries, or where the
        wheel hardly rises with the lower ball joint.
        """
        if self._doubt is None:
            self._doubt = self._doubt_as_drawn()
        return self._doubt

    def _doubt_as_drawn(self):
        height = self.lower.centre.z + self.lower.arm.z
        lower, _, axis, lever, square, *shares = self._frame(height, self.tie_inner, bounded_root)
        wheel_height = lower.z + from_frame(self.wheel, axis, lever, square).z
        step = _BESIDE * self.upright_length
        rise = self.wheel_height_at(height + step, self.tie_inner) - wheel_height
        flat = where(rise >= STEEP * step, 0.0, 1.0)
        return flat + self._near_an_end(self.lower.arm.z, *shares, CLEAR2_DRAWN)

    def _near_an_end(self, rise, upper_shares, tie_shares, clear2):
        """1.0 where the lower arm, the upper arm or the lever stands nearly in line, else 0.0."""
        (upper_a, upper_b), (tie_a, tie_b) = upper_shares, tie_shares
        along2 = rise * rise * self.lower_stretch
        low = clear2 * along2 <= self.lower.radius2 - along2
        upper = clear2 * upper_a * upper_a <= upper_b * upper_b
        tie = clear2 * tie_a * tie_a <= tie_b * tie_b
        return where(low, where(upper, where(tie, 0.0, 1.0), 1.0), 1.0)


def _slowly(linkage, first, missed, rack):
    """The `Pose` where few trials have not found a sure one; NaN throughout where none is."""
    pose, unsure = linkage.tried(first, missed, rack, MORE_TRIALS, SETTLED_AGAIN)
    return again(unsure > 0.0, followed, (linkage, first, missed, rack), pose, FEW)
