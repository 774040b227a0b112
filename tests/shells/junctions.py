#!/usr/bin/env python3
"""Where a boxed stretch of a rail ends: its compliance in CalculiX, written to results/junctions.json.

    junctions.py             those of cases/junctions.json that have no result
    junctions.py NAME...     these, anew

A box, clamped at its far end, goes on as an open channel whose end section is rigid but for its warping mode, with a unit of each
force there, bimoment included. Taken off: the box as a beam by Bredt, the channel by Vlasov (stub_beams.py). What is left is the
junction's: on the channel's end against the box's plane section, about the web's middle. The box is ahead (+x) and opens to -y.

    C11, C12, C22  on (twist about x, twist rate)
    rise, bend     of the web's middle up, about y, by each of the two: how a shear force and a moment stir them
    swing          on the turn about the upright
"""

import numpy as np

import calculix
from beams import Beams
from frame import CELLS_ON_DEPTH, DENSITIES
from lines import graded
from mesh import Mesh
from rail import Grid, Rail, add_plate, add_rail, plate_inset
from run import run_missing
from stub_beams import box_section, shell_section

E, NU = 2.05e11, 0.3
BOXED, OPEN = 4.0, 2.0  # Lengths, in rail depths.
DENSITY = "medium"
RISE, TWIST, BEND, SWING, RATE = 2, 3, 4, 5, 6  # Of the seven freedoms.


def make(rail, boxed, plate):
    size = rail.h / CELLS_ON_DEPTH * DENSITIES[DENSITY]
    box = {"from_m": 0.0, "to_m": boxed, "thickness_m": plate}
    insets = [plate_inset(rail, box)] if plate else []
    grid = Grid(rail, [0, boxed, rail.length], [], insets, size, graded([(s, size) for s in (boxed, rail.length)], 3 * size))
    mesh = Mesh()
    add_rail(mesh, grid, [])
    if plate:
        add_plate(mesh, grid, box, [])
    mesh.merge()
    return mesh


def end_compliance(rail, boxed, plate):
    """Of the free end, 7 x 7: three displacements of the web's middle, three turns, the twist rate."""
    mesh = make(rail, boxed, plate)
    model = calculix.Model(mesh, E, NU)
    front, rear = (np.flatnonzero(abs(mesh.nodes[:, 0] + s) < 1e-6) for s in (0, rail.length))
    model.supports = [(int(n), axis) for n in front for axis in (1, 2, 3)]
    origin = rail.place(rail.length, 0.0, 0.0)
    moves, turns = model.add_rigid(rear, origin)
    rate = model.add_node(origin)
    model.supports += [(rate, 2), (rate, 3)]
    e = -shell_section(rail.h, rail.b, rail.t).y_S
    inset, z = rail.half_width - mesh.nodes[:, 1], mesh.nodes[:, 2]
    w = np.where(inset < 1e-9, e * z, np.sign(z) * rail.h / 2 * (e - inset))
    for terms in model.equations:
        node, axis, _ = terms[0]
        if axis == 1 and abs(w[node]) > 1e-12:
            terms.append((rate, 1, w[node]))  # u along station = -w rate, along x its negative.
    return calculix.compliance(model, [(moves, 1), (moves, 2), (moves, 3), (turns, 1), (turns, 2), (turns, 3), (rate, 1)])[0]


def beam_stiffness(section, length, warps):
    """14 x 14, on the seven freedoms of the front and of the rear end."""
    model = Beams(E, NU)
    front, rear = model.freedoms(7), model.freedoms(7)
    model.beam(section, np.zeros(3), np.array([-length, 0, 0]), [front[:6], rear[:6]],
               [front[6], rear[6]] if warps else [None, None], np.array([0, -1.0, 0]))
    (ids, k), = model.pieces
    out = np.zeros((14, 14))
    out[np.ix_(ids, ids)] = k
    return out


def run(entry):
    sizes, plate = entry["rail"], entry["plate_m"]
    depth = sizes["depth_m"]
    rail = Rail(sizes | {"length_m": (BOXED + OPEN) * depth}, 0.0)
    channel = beam_stiffness(shell_section(rail.h, rail.b, rail.t), OPEN * depth, True)
    ff, fe, ee = channel[7:, 7:], channel[7:, :7], channel[:7, :7]
    # What shells have and the beam has not, the channel alone: the flanges' shear by warping.
    beyond = end_compliance(Rail(sizes | {"length_m": OPEN * depth}, 0.0), 0.0, None) - np.linalg.inv(ff)
    S = end_compliance(rail, BOXED * depth, plate) - beyond
    C = np.linalg.inv(fe.T @ np.linalg.solve(ff - np.linalg.inv(S), fe) - ee)
    box = beam_stiffness(box_section(rail, {"thickness_m": plate}), BOXED * depth, False)
    C[:6, :6] -= np.linalg.inv(box[7:13, 7:13])
    ways = [TWIST, RATE]
    rise, bend = np.linalg.solve(C[np.ix_(ways, ways)], C[np.ix_(ways, [RISE, BEND])]).T
    return {"C11_rad_per_Nm": C[TWIST, TWIST], "C12_per_Nm2": C[TWIST, RATE], "C22_per_Nm3": C[RATE, RATE], "rise_m": rise[0],
            "rise_m2": rise[1], "bend": bend[0], "bend_m": bend[1], "swing_rad_per_Nm": C[SWING, SWING]}


if __name__ == "__main__":
    run_missing("junctions", run)
