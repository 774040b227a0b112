"""One joint alone: a short rail clamped at both ends, one crossmember, loads at the crossmember's free end."""

import numpy as np

import calculix
from frame import make_frame

FREE_M = 0.30  # From the rail's web to the free end.
LONG = 5.0  # Rail depths between the clamps.


def make_case(rail, part, E=2.05e11, nu=0.3, box=None, long=LONG):
    """A case with the joint in the middle of the stub; `part` without its station; `box` a plate's thickness, all along."""
    length = long * rail["depth_m"]
    case = {"E_Pa": E, "nu": nu, "web_to_web_m": 2 * FREE_M, "rail": rail | {"length_m": length},
            "crossmembers": [{"id": "stub", "station_m": length / 2} | part], "stations_m": {}}
    if box:
        case["boxing"] = [{"from_m": 0.0, "to_m": length, "thickness_m": box}]
    return case


def compliance(case, density, warping=None):
    """Displacements of the free end's section (columns by load) under unit loads.

    Freedoms: x, y, z and the turns about them, of the point on the line through the crossmember's O (its tube's axis, its
    channel's web mid-plane) at the cut; and with `warping(points)`, which gives the sectorial coordinate at points (x, z) from O,
    the twist rate about the axis that runs from the cut to the rail (+y). The section is rigid but for that.
    """
    frame = make_frame(case, density)
    mesh = frame.mesh
    part = case["crossmembers"][0]
    origin = np.array([-part["station_m"], 0.0, part.get("height_m", 0.0)])
    model = calculix.Model(mesh, case["E_Pa"], case["nu"])
    ends = np.flatnonzero((abs(mesh.nodes[:, 0]) < 1e-6) | (abs(mesh.nodes[:, 0] + frame.rail.length) < 1e-6))
    model.supports = [(int(n), axis) for n in ends for axis in (1, 2, 3)]
    cut = np.flatnonzero(abs(mesh.nodes[:, 1]) < 1e-6)
    moves, turns = model.add_rigid(cut, origin)
    freedoms = [(moves, 1), (moves, 2), (moves, 3), (turns, 1), (turns, 2), (turns, 3)]
    if warping:
        rate = model.add_node(origin)
        freedoms.append((rate, 1))
        model.supports += [(rate, 2), (rate, 3)]
        places = {int(n): w for n, w in zip(cut, warping((mesh.nodes[cut] - origin)[:, [0, 2]]))}
        for terms in model.equations:
            node, axis, _ = terms[0]
            if axis == 2 and abs(places[node]) > 1e-12:
                terms.append((rate, 1, -places[node]))  # u = -w (twist rate)
    for tie in frame.ties:
        model.add_rigid(tie, mesh.nodes[tie].mean(axis=0))
    return calculix.compliance(model, freedoms)[0]
