#!/usr/bin/env python3
"""Where a boxed stretch of a rail ends: its compliance in CalculiX, written to results/junctions.json.

    junctions.py             those of cases/junctions.json that have no result
    junctions.py NAME...     these, anew

A box, clamped at its far end, goes on as an open channel whose end section is rigid but for its warping mode and takes a torque T
and a bimoment B. Taken off: the box's twist by Bredt, the channel by Vlasov. What is left is the junction's: on (twist of the channel
against the box, twist rate of the channel there), x from the box to the channel, u = -w (twist rate).
"""

import numpy as np

import calculix
from beams import torsion
from frame import CELLS_ON_DEPTH, DENSITIES
from lines import graded
from mesh import Mesh
from rail import Grid, Rail, add_plate, add_rail, plate_inset
from run import run_missing
from stub_beams import shell_section
from theory import box_torsion_constant

E, NU = 2.05e11, 0.3
BOXED, OPEN = 4.0, 2.0  # Lengths, in rail depths.
DENSITY = "medium"


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
    """(twist, twist rate) of the free end, columns for T and B; about x = station."""
    mesh = make(rail, boxed, plate)
    model = calculix.Model(mesh, E, NU)
    front, rear = (np.flatnonzero(abs(mesh.nodes[:, 0] + s) < 1e-6) for s in (0, rail.length))
    model.supports = [(int(n), axis) for n in front for axis in (1, 2, 3)]
    origin = rail.place(rail.length, 0.0, 0.0)
    _, turns = model.add_rigid(rear, origin)
    rate = model.add_node(origin)
    model.supports += [(rate, 2), (rate, 3)]
    e = -shell_section(rail.h, rail.b, rail.t).y_S
    inset, z = rail.half_width - mesh.nodes[:, 1], mesh.nodes[:, 2]
    w = np.where(inset < 1e-9, e * z, np.sign(z) * rail.h / 2 * (e - inset))
    for terms in model.equations:
        node, axis, _ = terms[0]
        if axis == 1 and abs(w[node]) > 1e-12:
            terms.append((rate, 1, w[node]))  # u along station = -w rate, along x its negative.
    S, _ = calculix.compliance(model, [(turns, 1), (rate, 1)])
    return S * [[1, -1], [-1, 1]]  # Twist about the station axis is against x.


def peel(S, GJ, EC_w, length):
    """Compliance at the other end of a bar whose end has compliance S."""
    k = torsion(GJ, EC_w, length)
    base, end = [0, 1], [2, 3]
    ff, fe, ee = k[np.ix_(end, end)], k[np.ix_(end, base)], k[np.ix_(base, base)]
    return np.linalg.inv(fe.T @ np.linalg.solve(ff - np.linalg.inv(S), fe) - ee)


def run(entry):
    sizes, plate = entry["rail"], entry["plate_m"]
    G = E / (2 + 2 * NU)
    depth = sizes["depth_m"]
    rail = Rail(sizes | {"length_m": (BOXED + OPEN) * depth}, 0.0)
    section = shell_section(rail.h, rail.b, rail.t)
    # The channel's own stiffness from shells, clamped where the box would end.
    alone = Rail(sizes | {"length_m": OPEN * depth}, 0.0)
    clamped = end_compliance(alone, 0.0, None)
    GJ, EC_w = G * section.J, E * section.C_w
    for _ in range(20):  # As Vlasov's: the rate under B gives EC_w.
        k = torsion(GJ, EC_w, alone.length)[2:, 2:]
        EC_w *= np.linalg.inv(k)[1, 1] / clamped[1, 1]
    theory = np.linalg.inv(torsion(GJ, EC_w, alone.length)[2:, 2:])
    S = end_compliance(rail, BOXED * depth, plate)
    S[0, 0] -= clamped[0, 0] - theory[0, 0]  # Shear of the flanges, which Vlasov leaves out.
    at_base = peel(S, GJ, EC_w, OPEN * depth)
    box = box_torsion_constant(rail.h, plate_inset(rail, {"thickness_m": plate}), rail.t, plate)
    at_base[0, 0] -= BOXED * depth / (G * box)
    return {"C11_rad_per_Nm": at_base[0, 0], "C12_per_Nm2": at_base[0, 1], "C22_per_Nm3": at_base[1, 1],
            "EC_w_over_thin_wall": EC_w / (E * section.C_w), "clamped_C11_over_theory": clamped[0, 0] / theory[0, 0]}


if __name__ == "__main__":
    run_missing("junctions", run)
