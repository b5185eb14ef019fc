"""What is usual of a small car's corner: limits of its proportions, wide on purpose.

Lengths are in parts of the tyre's loaded radius unless a comment says otherwise, so that they
hold in any unit; angles are in degrees. Each limit says where it comes from. One of geometry
parts what can be from what cannot. The others part what is met from what is not: common
practice, no source. What lies beyond them is worth another look and may still be meant.
"""

# Lengths of one millimetre in each unit that a sheet may use.
UNITS = {"mm": 1.0, "cm": 0.1, "m": 0.001, "in": 1.0 / 25.4}

# Loaded radii of wheels of small cars, in millimetres. Common practice, no source.
RADII = (120.0, 450.0)

# From the car's middle line to the wheel centre: what is usual, and what no car is beyond. Common
# practice, no source.
HALF_TRACK = (0.8, 6.0)
HALF_TRACK_EVER = (0.4, 12.0)

# How far the tyre's lowest point may lie off the ground, z = 0: what rounding the wheel
# centre's height and the radius to whole numbers may leave. Geometry.
OFF_GROUND = 0.02

# A radius that is nearer to twice the wheel centre's height than this is the diameter. Geometry.
DIAMETER = 0.1

# Static camber and toe: beyond the first it is rare, beyond the second no car's. Common
# practice, no source.
CAMBER = (5.0, 15.0)
TOE = (2.0, 10.0)

# Distances of points from the wheel centre beyond which no car has them. Common practice, no
# source.
FARTHEST = {
    "lower ball joint": 1.2,
    "upper ball joint": 1.8,
    "tie rod outer": 1.5,
    "lower front pickup": 5.0,
    "lower rear pickup": 5.0,
    "upper front pickup": 5.0,
    "upper rear pickup": 5.0,
    "tie rod inner": 5.0,
}
FARTHEST_OF_SPRING = {
    "rod outer": 2.5,
    "rod inner": 5.0,
    "rocker pivot": 5.0,
    "rocker axis": 8.0,
    "spring rocker": 5.0,
    "spring frame": 5.0,
}

# Between the ball joints: nearer than the first they are no upright's; beyond the others they
# are rare. Common practice, no source.
CLOSEST = 0.15
SPAN = (0.35, 1.9)

# The steering axis. Common practice, no source.
CASTER = (-1.5, 16.0)
INCLINATION = (-4.0, 22.0)
TRAIL = (-0.08, 0.4)
SCRUB = (-0.3, 0.6)

# Heights above the ground. Below it no point can be (geometry); the rest is common practice,
# no source.
LOWEST = 0.12
HIGHEST = {
    "lower ball joint": 1.1,
    "upper ball joint": 2.4,
    "lower front pickup": 1.5,
    "lower rear pickup": 1.5,
    "upper front pickup": 2.9,
    "upper rear pickup": 2.9,
    "tie rod outer": 2.4,
    "tie rod inner": 2.6,
}
HIGHEST_OF_SPRING = {
    "rod outer": 2.6,
    "rod inner": 4.0,
    "rocker pivot": 4.0,
    "spring rocker": 4.0,
    "spring frame": 4.0,
}

# How far past the car's middle line a point of the frame may stand, in half tracks. Common
# practice, no source.
PAST_MIDDLE = 0.05
PAST_MIDDLE_OF_SPRING = 0.2

# An arm: its length from the line through its pickups to the ball joint, the pickups' distance
# along the car, how far the ball joint lies before or behind both, the slope of that line in
# plan and from the side, and that of the arm from the front. Common practice, no source.
ARM = (0.3, 2.6)
BASE = (0.2, 2.4)
BESIDE = 0.8
IN_PLAN = 27.0
FROM_SIDE = 18.0
FROM_FRONT = 42.0

# The tie rod: its length, its lever about the steering axis, its slope in plan and from the
# front, and how far from toggle it stands. Common practice, no source.
ROD = (0.35, 2.8)
LEVER = (0.12, 0.8)
ROD_IN_PLAN = 28.0
ROD_FROM_FRONT = 42.0
TOGGLE = 40.0

# As drawn, for a travel of one radius: degrees of camber and of toe. Common practice, no source.
CAMBER_GAIN = (-28.0, 8.0)
BUMP_STEER = 14.0

# Height of the roll centre. Common practice, no source.
ROLL_CENTRE = (-0.45, 0.9)

# The rod's outer end: how far it lies off its arm's plane, off the steering axis if the
# upright carries it, and outboard of its ball joint. Common practice, no source.
OFF_ARM = 0.3
OFF_UPRIGHT = 0.45
OUTBOARD = 0.15

# Spring and rocker: lengths of the rod, of the spring and of both arms of the rocker, and from the
# pivot to the point that gives its axis; beyond the last a spring is longer than a car's. Common
# practice, no source.
PUSH_ROD = (0.3, 3.0)
SPRING = (0.3, 2.2)
ROCKER_ARM = (0.06, 0.9)
ROCKER_AXIS = (0.02, 0.6)
LONGEST_SPRING = 5.0

# Motion ratio as drawn. Common practice, no source.
MOTION_RATIO = (0.2, 1.6)

# Degrees that rod and spring should stand off over centre as drawn, and that the rod may lean
# out of the plane in which the rocker turns. Common practice, no source.
MARGIN = 15.0
OUT_OF_PLANE = 45.0
