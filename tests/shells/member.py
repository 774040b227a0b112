"""A rail alone, its end sections rigid in their planes: torsion with warping free or held, and bending."""

import numpy as np

import calculix
from frame import CELLS_ON_DEPTH, DENSITIES
from lines import graded
from mesh import Mesh
from rail import Grid, Rail, add_plate, add_rail, plate_inset


def make_member(case, density):
    """(mesh, rail) of the rail of a case with its boxing."""
    rail = Rail(case["rail"], 0.0)
    size = rail.h / CELLS_ON_DEPTH * DENSITIES[density]
    boxes = case.get("boxing", [])
    ends = [s for box in boxes for s in (box["from_m"], box["to_m"])]
    grid = Grid(rail, [0, rail.length / 2, rail.length, *ends], [], [plate_inset(rail, box) for box in boxes], size,
                graded([(s, size) for s in (0, rail.length, *ends)], 3 * size))
    mesh = Mesh()
    add_rail(mesh, grid, [])
    for box in boxes:
        add_plate(mesh, grid, box, [])
    mesh.merge()
    return mesh, rail


def ends(mesh, rail):
    return [np.flatnonzero(abs(mesh.nodes[:, 0] + s) < 1e-6) for s in (0, rail.length)]


def torsion_stiffness(case, density, is_warping_held):
    """N m/rad between the end sections.

    Front: no displacement in the section's plane. Rear: rigid in its plane, with the torque. Warping held: no axial
    displacement at either end, and the rear may sway; free: the rear's O stays on the axis. Nothing else is carried.
    """
    mesh, rail = make_member(case, density)
    model = calculix.Model(mesh, case["E_Pa"], case["nu"])
    front, rear = ends(mesh, rail)
    model.supports = [(int(n), axis) for n in front for axis in (2, 3)]
    centre = np.array([-rail.length, 0, 0])
    moves, turns = model.add_rigid(rear, centre, axes=(2, 3))
    model.supports += [(turns, 2), (turns, 3)]
    if is_warping_held:
        model.supports += [(int(n), 1) for n in (*front, *rear)]
    else:
        model.supports += [(moves, 2), (moves, 3), (mesh.find([0, 0, 0]), 1)]
    model.steps = [[(turns, 1, 1000.0)]]
    model.watched_nodes = [turns]
    answer = calculix.solve(model)
    return 1000.0 / answer.displacement[0][turns][0], answer.version


def bending_stiffness(case, density):
    """N/m: on both ends at the web, a load in the middle of the web's line but through the shear centre.

    The sections at the ends and the middle are rigid in their planes; the ends do not turn about x.
    """
    mesh, rail = make_member(case, density)
    model = calculix.Model(mesh, case["E_Pa"], case["nu"])
    for end in ends(mesh, rail):
        model.supports += [(int(n), axis) for n in end for axis in (2, 3)]
    model.supports.append((mesh.find([-rail.length / 2, 0, 0]), 1))
    middle = np.flatnonzero(abs(mesh.nodes[:, 0] + rail.length / 2) < 1e-6)
    moves, turns = model.add_rigid(middle, np.array([-rail.length / 2, 0, 0]), axes=(2, 3))
    model.supports += [(turns, axis) for axis in (1, 2, 3)]  # Held against twist: the shear centre is where it acts.
    model.steps = [[(moves, 3, 1000.0)]]
    model.watched_nodes = [moves]
    answer = calculix.solve(model)
    return 1000.0 / answer.displacement[0][moves][2], answer.version
