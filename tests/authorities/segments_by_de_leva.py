"""De Leva's table of segments (1996, table 4), as a public repository for teaching states it.

The repository BMClab/BMC, its files data/BSPfemale_ZdeLeva.txt and data/BSPmale_ZdeLeva.txt, of the
segments between the ends that the package takes: Head 2 (vertex to the seventh neck vertebra),
Trunk 2 (from that to between the hips), Hand 2 (wrist to the third finger's tip) and the others.
"""

SEGMENTS = {
    "woman": {
        "head": (0.0668, 0.4841, 0.271, 0.295, 0.261),
        "trunk": (0.4257, 0.4964, 0.307, 0.292, 0.147),
        "upper arm": (0.0255, 0.5754, 0.278, 0.26, 0.148),
        "forearm": (0.0138, 0.4559, 0.261, 0.257, 0.094),
        "hand": (0.0056, 0.3427, 0.244, 0.208, 0.154),
        "thigh": (0.1478, 0.3612, 0.369, 0.364, 0.162),
        "shank": (0.0481, 0.4352, 0.267, 0.263, 0.092),
        "foot": (0.0129, 0.4014, 0.299, 0.279, 0.139),
    },
    "man": {
        "head": (0.0694, 0.5002, 0.303, 0.315, 0.261),
        "trunk": (0.4346, 0.5138, 0.328, 0.306, 0.169),
        "upper arm": (0.0271, 0.5772, 0.285, 0.269, 0.158),
        "forearm": (0.0162, 0.4574, 0.276, 0.265, 0.121),
        "hand": (0.0061, 0.3624, 0.288, 0.235, 0.184),
        "thigh": (0.1416, 0.4095, 0.329, 0.329, 0.149),
        "shank": (0.0433, 0.4395, 0.251, 0.246, 0.102),
        "foot": (0.0137, 0.4415, 0.257, 0.245, 0.124),
    },
}
"""Share of the body's mass, place of the centre from the upper end, and the radii of gyration,
sagittal, transverse, longitudinal, in shares of the segment's length."""
