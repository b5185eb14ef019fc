"""Two steered wheels and their turn centre: plane geometry in the ground plan.

Ground plan: x forward, y left, angles in degrees, positive to the left. The relation
cot(outer) - cot(inner) = track / wheelbase is the Ackermann relation (Gillespie,
*Fundamentals of Vehicle Dynamics*, SAE 1992, chapter on steering; from memory).
"""

import numpy as np


def outer_by_cotangents(inner, track, wheelbase):
    """Outer angle from the Ackermann relation, for an inner angle that is not zero."""
    return np.degrees(np.arctan(1.0 / (1.0 / np.tan(np.radians(inner)) + track / wheelbase)))


def crossing(point_a, angle_a, point_b, angle_b):
    """Where the lines through two points, at these headings turned a quarter, meet: (2,)."""
    rows = []
    for angle in (angle_a, angle_b):
        # All points p on the normal of a wheel have no part along its heading.
        rows.append([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    rows = np.array(rows)
    return np.linalg.solve(rows, [rows[0] @ point_a, rows[1] @ point_b])


def on_rear_line(point, angle, rear):
    """Where a wheel's normal meets the rear axle line x = rear: (2,)."""
    return crossing(np.asarray(point), angle, np.array([rear, 0.0]), 0.0)


class Turn:
    """A steered axle by plane geometry. left, right: contact centres (2,), y to the left."""

    def __init__(self, left, right, steer_left, steer_right, rear):
        left, right = np.asarray(left), np.asarray(right)
        to_left = steer_left + steer_right > 0
        (self.inner_at, self.outer_at) = (left, right) if to_left else (right, left)
        steers = (steer_left, steer_right) if to_left else (steer_right, steer_left)
        self.inner, self.outer = np.abs(steers)
        centre = on_rear_line(self.inner_at, steers[0], rear)
        way = self.outer_at - centre
        # The outer wheel square to the same centre: its heading is the way turned a quarter.
        ideal = np.degrees(np.arctan2(-way[0], way[1]))
        self.ideal_outer = abs((ideal + 90.0) % 180.0 - 90.0)
        self.percentage = 100.0 * (self.inner - self.outer) / (self.inner - self.ideal_outer)
        other = on_rear_line(self.outer_at, steers[1], rear)
        self.radius = np.linalg.norm(self.outer_at - 0.5 * (centre + other))
