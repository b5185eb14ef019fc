"""Five standing persons of the package yeadon 2.0.1, worked out once and written down here.

Its model (Yeadon 1990) builds a person of forty solids from ninety-five lengths and perimeters, and
uses densities of segments where ours has shares of mass: an independent way. The persons are
those of its folder of sample measurements, arms hanging, feet pointing down, both sides alike. The
base of the neck is taken 20 mm above the acromion, the grip at 0.2 over 0.146 of the forearm.
"""

PERSONS = (
    (
        "male1",
        "man",
        58.2,
        (794.0, 522.0, 472.0, 145.0, -141.3, 0.0, -561.5, -836.0, -897.0, -1020.0, 151.5, 81.0),
        12.0,
        (9.995, 9.631, 0.545),
    ),
    (
        "male2",
        "man",
        98.17,
        (908.0, 625.0, 539.0, 165.0, -173.4, 0.0, -561.5, -909.5, -986.5, -1113.0, 174.0, 96.5),
        83.8,
        (17.639, 16.844, 1.419),
    ),
    (
        "male3",
        "man",
        80.146,
        (853.0, 565.0, 493.0, 143.0, -217.3, 0.0, -559.0, -928.0, -979.8, -1096.0, 171.5, 86.8),
        34.1,
        (14.571, 13.952, 0.963),
    ),
    (
        "male4",
        "man",
        78.745,
        (859.0, 616.0, 571.0, 262.5, -172.4, 0.0, -549.5, -848.5, -908.8, -1028.0, 229.0, 81.5),
        85.8,
        (14.17, 13.413, 1.174),
    ),
    (
        "female1",
        "woman",
        55.816,
        (806.0, 534.0, 479.0, 179.5, -121.9, 0.0, -523.0, -772.5, -810.5, -896.5, 138.0, 78.5),
        41.3,
        (7.903, 7.625, 0.514),
    ),
)
"""Name there, sex, kg; mm above the hips: top of head, base of neck, shoulder, elbow, grip, hip,
knee, ankle, heel, toe, then shoulder and hip to the left; mm to the centre of mass; its inertias
about the lines forward, to the left and up, in kg m2."""
