"""A car in a steady turn whose solid rear axle stands on springs: its energy, made least by scipy.

Two angles, the body's and the axle's. The axle turns about the middle of its track on the ground
and carries the body at its roll centre; springs turn the body against it, tyres against the road.
In front one roll spring holds the body at its roll centre. D'Alembert's forces and the weights
act where the masses are, at their places as turned. Stiffness in moment per radian, lateral
acceleration in g, to the left; the body then leans to the right and its left side rises.
"""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import root


@dataclass
class SprungAxle:
    body: float  # weight without the axle
    height: float  # of its centre of gravity
    share: float  # of it on the front axle
    front_centre: float
    front_stiffness: float
    front_track: float
    rear_centre: float
    rear_springs: float
    rear_tyres: float
    rear_track: float
    axle: float  # weight
    axle_height: float

    def energy(self, angles, lateral):
        """Of springs, weights and d'Alembert's forces. Complex angles are let through."""
        body, axle = angles
        behind = 1.0 - self.share
        arm = self.height - self.share * self.front_centre - behind * self.rear_centre
        # How far to the right each mass has gone, and how high.
        body_right = arm * np.sin(body) + behind * self.rear_centre * np.sin(axle)
        body_up = arm * np.cos(body) + behind * self.rear_centre * np.cos(axle)
        axle_right, axle_up = self.axle_height * np.sin(axle), self.axle_height * np.cos(axle)
        springs = (
            self.front_stiffness * body**2
            + self.rear_springs * (body - axle) ** 2
            + self.rear_tyres * axle**2
        )
        return (
            springs / 2
            + self.body * (body_up - lateral * body_right)
            + self.axle * (axle_up - lateral * axle_right)
        )

    def angles(self, lateral):
        """Roll of the body and of the axle in radians."""
        step = 1e-30

        def slopes(angles):
            return [
                np.imag(self.energy(angles + 1j * step * way, lateral)) / step for way in np.eye(2)
            ]

        scale = self.rear_springs + self.front_stiffness
        found = root(lambda angles: np.array(slopes(angles)) / scale, [0.0, 0.0], tol=1e-14)
        return tuple(float(angle) for angle in found.x)

    def transfers(self, lateral):
        """Load that goes from the left wheel to the right one: (front, rear)."""
        body, axle = self.angles(lateral)
        hand_over = self.body * self.share * self.front_centre * lateral
        return (
            (hand_over + self.front_stiffness * body) / self.front_track,
            self.rear_tyres * axle / self.rear_track,
        )

    def left_out(self):
        """The part of the axle's own moment that its lean on the tyres adds: what the closed
        form, whose axle hands over its side force upright, does not have."""
        behind = 1.0 - self.share
        high = self.body * behind * self.rear_centre + self.axle * self.axle_height
        return abs(high) / (self.rear_springs + self.rear_tyres)
