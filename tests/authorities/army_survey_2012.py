"""Some rows of the summary tables of ANSUR II, the anthropometric survey of U.S. Army personnel.

Gordon and others, *2012 Anthropometric Survey of U.S. Army Personnel: Methods and Summary
Statistics*, NATICK/TR-15/007 (2014), chapter IV; 4,082 men and 1,986 women. As the public
repository hfelabs-boop/AnthropometricRepo states its pages in aggregates/raw/usarmy.csv, checked
there against the survey's own public data. Lengths in mm, mass in kg, undressed.
"""

PEOPLE = {"man": 4082, "woman": 1986}

PERCENTILES = {
    "woman": {
        "stature": (1525.0, 1626.0, 1740.0), "mass": (51.3, 66.8, 87.1),
        "bideltoid breadth": (406.0, 450.0, 499.0), "hip breadth, sitting": (348.0, 397.0, 456.0),
    },
    "man": {
        "stature": (1648.0, 1755.0, 1870.0), "mass": (64.4, 84.6, 110.7),
        "bideltoid breadth": (459.0, 509.0, 567.0), "hip breadth, sitting": (333.0, 378.0, 431.0),
    },
}  # fmt: skip
"""The 5th, 50th and 95th percentile, each measure by itself."""

MEANS = {
    "woman": {
        "stature": 1628.5, "cervicale height": 1395.7, "lateral femoral epicondyle height": 465.9,
        "lateral malleolus height": 62.7, "acromion to radiale": 311.2,
        "radiale to stylion": 241.3, "bideltoid breadth": 450.3, "hip breadth, sitting": 399.0,
    },
    "man": {
        "stature": 1756.2, "cervicale height": 1517.3, "lateral femoral epicondyle height": 491.7,
        "lateral malleolus height": 72.9, "acromion to radiale": 335.2,
        "radiale to stylion": 267.9, "bideltoid breadth": 510.4, "hip breadth, sitting": 379.3,
    },
}  # fmt: skip
