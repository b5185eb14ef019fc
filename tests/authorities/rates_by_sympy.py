"""Rates of camber, toe and the upright's points, by implicit differentiation in SymPy.

The constraint equations in the wheel centre's place and the upright's quaternion are
differentiated symbolically; at a solution, the unknowns' rates follow from one linear
system (the implicit function theorem). Angles in degrees.
"""

from functools import lru_cache

import numpy as np
import sympy as sp
from scipy.spatial.transform import Rotation

LINKS = (("lower", 0), ("lower", 1), ("upper", 2), ("upper", 3), ("tie", 4))


@lru_cache(maxsize=1)
def _equations():
    """Numeric functions of the derivatives, made once from the symbols."""
    place = sp.symbols("X Y Z")
    quaternion = sp.symbols("q0:4")
    travel, rack = sp.symbols("travel rack")
    arms = {n: sp.symbols(f"{n}_x {n}_y {n}_z") for n in ("lower", "upper", "tie")}
    inner = [sp.symbols(f"i{i}_x i{i}_y i{i}_z") for i in range(5)]
    spindle = sp.symbols("s_x s_y s_z")
    w, x, y, z = quaternion
    turn = sp.Matrix(
        [
            [w**2 + x**2 - y**2 - z**2, 2 * (x * y - w * z), 2 * (x * z + w * y)],
            [2 * (x * y + w * z), w**2 - x**2 + y**2 - z**2, 2 * (y * z - w * x)],
            [2 * (x * z - w * y), 2 * (y * z + w * x), w**2 - x**2 - y**2 + z**2],
        ]
    )
    points = {name: sp.Matrix(place) + turn * sp.Matrix(arm) for name, arm in arms.items()}
    equations = []
    for name, i in LINKS:
        end = sp.Matrix(inner[i]) + sp.Matrix([0, rack if i == 4 else 0, 0])
        way = points[name] - end
        equations.append(way.dot(way))
    equations.append(sum(q**2 for q in quaternion))
    equations.append(place[2] - travel)
    across = turn * sp.Matrix(spindle)
    camber = sp.deg(sp.atan2(-across[2], sp.sqrt(across[0] ** 2 + across[1] ** 2)))
    toe = sp.deg(sp.atan2(across[0], across[1]))
    measures = sp.Matrix([camber, toe, *points["lower"], *points["upper"], *points["tie"], *place])
    unknown = sp.Matrix([*place, *quaternion])
    known = [*unknown, travel, rack, *sum(map(tuple, arms.values()), ()), *sum(inner, ()), *spindle]
    system = sp.Matrix(equations)
    return sp.lambdify(
        [known],
        [
            system.jacobian(unknown),
            system.jacobian(sp.Matrix([travel, rack])),
            measures.jacobian(unknown),
        ],
        cse=True,
    )


NAMES = ("camber", "toe", "lower ball joint", "upper ball joint", "tie rod outer", "wheel centre")


def rates(corner, centre, rotation_vector, rack, spindle):
    """Rates at a solved pose: a dict of `NAMES`, each per unit of travel and per unit of rack.

    corner: name to (3,) array; centre (3,) and rotation vector (3,) solve it at the rack;
    spindle: as drawn, (3,). Each entry has shape (2,) or (3, 2).
    """
    x, y, z, w = Rotation.from_rotvec(rotation_vector).as_quat()
    arms = [
        corner[name] - corner["wheel centre"]
        for name in ("lower ball joint", "upper ball joint", "tie rod outer")
    ]
    inner = [
        corner[name]
        for name in (
            "lower front pickup", "lower rear pickup",
            "upper front pickup", "upper rear pickup", "tie rod inner",
        )
    ]  # fmt: skip
    # The travel appears as a difference only, so its own value does not matter here.
    known = [*centre, w, x, y, z, 0.0, rack, *np.concatenate([*arms, *inner]), *spindle]
    by_unknown, by_given, measures = map(np.array, _equations()(known))
    unknown = -np.linalg.solve(by_unknown, by_given)
    found = measures @ unknown
    parts = np.split(found, [1, 2, 5, 8, 11])
    return {n: part[0] if len(part) == 1 else part for n, part in zip(NAMES, parts, strict=True)}
