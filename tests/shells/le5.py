"""NAFEMS LE5: a Z-section cantilever under a torque, axial stress at a flange edge -108 MPa.

[NAFEMS] The Standard NAFEMS Benchmarks, TNSB Rev. 3, 1990, test LE5 (seen in a public copy). Length 10 m, flange 1 m, web 2 m,
t 0.1 m, E 210 GPa, nu 0.3; all freedoms fixed at the root; torque 1.2 MN m as two opposed flange shears of 0.6 MN.
"""

import numpy as np

import calculix
from lines import with_middles
from mesh import Mesh
from stress import stress_at

ALONG, FLANGE, WEB = 40, 6, 12  # Cells.


def solve():
    """(axial stress at A in Pa, tip twist in rad, ccx version)."""
    mesh = Mesh()
    x = with_middles(np.linspace(0, 10, ALONG + 1))
    flange, web = with_middles(np.linspace(0, 1, FLANGE + 1)), with_middles(np.linspace(-1, 1, WEB + 1))

    def add(y, z, region):
        y, z = np.broadcast_arrays(y, z)
        shape = (len(x), len(y))
        mesh.add(np.stack([np.broadcast_to(v, shape) for v in (x[:, None], y[None], z[None])], axis=-1), 0.1, region)

    add(0.0, web, "web")
    add(flange, 1.0, "upper")
    add(-flange, -1.0, "lower")
    mesh.merge()
    model = calculix.Model(mesh, 210e9, 0.3)
    model.supports = [(int(n), axis) for n in np.flatnonzero(mesh.nodes[:, 0] < 1e-6) for axis in range(1, 7)]
    shear = np.zeros(len(flange))
    for k in range(0, len(flange) - 2, 2):
        shear[k:k + 3] += np.array([1, 4, 1]) / 6 / FLANGE
    tips = [[mesh.find([10, sign * y, sign]) for y in flange] for sign in (1, -1)]
    model.steps = [[(n, 2, -sign * 0.6e6 * share) for sign, nodes in zip((1, -1), tips)
                    for n, share in zip(nodes, shear)]]
    where = np.array([2.5, 1.0, 1.0])
    model.watched_elements = np.flatnonzero((mesh.region == "upper") & (mesh.elements == mesh.find(where)).any(axis=1))
    corners = [mesh.find([10, 0, sign]) for sign in (1, -1)]
    model.watched_nodes = corners
    answer = calculix.solve(model)
    axial, _ = stress_at(where, 0.1, model.watched_elements, answer, 0)
    twist = -(answer.displacement[0][corners[0]][1] - answer.displacement[0][corners[1]][1]) / 2
    return axial, twist, answer.version
