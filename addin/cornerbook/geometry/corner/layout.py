"""Before any pickup is drawn: relations between plain numbers.

Angles in degrees, lengths in any one unit. Each function takes floats or arrays.
"Hub offset" is measured level, at the height of the wheel centre, from the
steering axis to the wheel centre; it is the castor offset (along) and the kingpin
offset (across) at wheel centre of ISO 8855.
"""

from ..numbers import absolute, atan2, cos, degrees, radians, sin, sqrt, tan
from ..vec import Vec
from .wheel import camber_of, contact_centre, spindle_of


def trail_from_caster(caster, radius, hub_offset, camber=0.0):
    """Mechanical trail of a wheel straight ahead; positive: axis ahead of the contact.

    hub_offset: positive when the wheel centre is ahead of the axis.
    In side view the axis falls forward by height * tan(caster) from hub height to
    the ground; a wheel that leans has its centre at radius * cos(camber).
    """
    return radius * cos(radians(camber)) * tan(radians(caster)) - hub_offset


def scrub_from_inclination(inclination, radius, hub_offset, camber=0.0):
    """Scrub radius of a wheel straight ahead; positive: axis inboard of the contact.

    hub_offset: positive when the wheel centre is outboard of the axis. The contact of a wheel
    that leans inward (camber negative) lies outboard of its centre, by radius * sin of it.
    """
    lean = radians(camber)
    return hub_offset - radius * sin(lean) - radius * cos(lean) * tan(radians(inclination))


def ideal_outer(inner, track, wheelbase):
    """Outer wheel's angle with both front wheels square to one turn centre.

    The Ackermann relation cot(outer) - cot(inner) = track / wheelbase, of the angles' sizes:
    a turn to the right is the mirror of one to the left.
    """
    t = tan(radians(inner))
    return degrees(atan2(t, 1.0 + absolute(t) * track / wheelbase))


class TurnedWheel:
    """A wheel turned about its steering axis alone, the body held still.

    steer: angle of the wheel's heading, degrees, positive to the left.
    caster, inclination, camber: degrees, as the wheel stands straight ahead.
    The wheel is a left-hand one without toe; for the right-hand one the steer
    angle changes sign. The rotation is exact: the turn about the axis that brings
    the heading to the steer angle is found in closed form.
    """

    def __init__(self, steer, caster, inclination, camber):
        axis = Vec(-tan(radians(caster)), -tan(radians(inclination)), 1.0).unit()
        self.axis = axis
        self.straight = spindle_of(camber, 0.0)
        # The spindle turns on a cone: fixed + swing cos(turn) + across sin(turn).
        fixed = axis * axis.dot(self.straight)
        swing = self.straight - fixed
        across = axis.cross(self.straight)
        # Its level part must be square to the heading (cos, sin of the steer angle).
        along = Vec(cos(radians(steer)), sin(radians(steer)), 0.0)
        a = fixed.dot(along)
        b = swing.dot(along)
        c = across.dot(along)
        size2 = b * b + c * c
        root = sqrt(size2 - a * a)
        self.cosine = (-a * b - c * root) / size2
        self.sine = (-a * c + b * root) / size2
        self.spindle = self.turned(self.straight)

    def turned(self, vector):
        """A vector fixed to the upright, turned with it (Rodrigues' formula)."""
        axial = self.axis * self.axis.dot(vector)
        across = self.axis.cross(vector)
        return axial + (vector - axial) * self.cosine + across * self.sine

    def camber(self):
        """Camber of the turned wheel in degrees; positive: top away from the car."""
        return camber_of(self.spindle)

    def rise(self, radius, outboard, ahead):
        """How far the contact centre rises against the body, in the lengths' unit.

        outboard, ahead: hub offsets of the wheel centre from the steering axis.
        """
        centre = Vec(ahead, outboard, 0.0)
        before = contact_centre(centre, self.straight, radius)
        after = contact_centre(self.turned(centre), self.spindle, radius)
        return after.z - before.z
