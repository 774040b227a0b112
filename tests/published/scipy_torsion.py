"""Sections solved as solids: St Venant's warping function on a fine grid, by SciPy.

The Laplace problem of the warping function (its normal derivative on the edge cancels that of the
rotation) in finite volumes over the solid plates, at two grids and carried on to none. From it J, the
shear centre and the warping constant: nothing of it knows midlines or cells. Reads the program's
sections as JSON from the command given, and compares with tolerances that thin-wall theory must meet,
each of the order of thickness over width; and halving the thickness must at least nearly halve what
it misses.

SciPy: P. Virtanen et al., "SciPy 1.0", Nature Methods 17 (2020) 261-272.
"""

import json
import subprocess
import sys

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import spsolve

WIDTH_M = 0.08  # Of the sections, or half of it.
HALVED = 0.6    # Of its error, at half the thickness.
GRID = 0.003    # Share below which the grid may be what differs.


def solve(plates, step):
    """J, shear centre (y, z) and warping constant on square volumes of the given size."""
    plates = np.array(plates)
    low = plates[:, :2].min(axis=0)
    size = np.rint((plates[:, 2:].max(axis=0) - low) / step).astype(int)
    solid = np.zeros(size, bool)
    for y0, z0, y1, z1 in plates:
        i, k = np.rint((np.array([[y0, z0], [y1, z1]]) - low) / step).astype(int)
        solid[i[0]:k[0], i[1]:k[1]] = True
    y, z = np.meshgrid(*(low[a] + (np.arange(size[a]) + 0.5) * step for a in (0, 1)), indexing="ij")
    number = np.cumsum(solid).reshape(size) - 1

    # Across each inner face: shear = d(warping)/dn - arm, with warping u = -(twist rate) w.
    right, up = solid[:-1] & solid[1:], solid[:, :-1] & solid[:, 1:]
    start = np.concatenate([number[:-1][right], number[:, :-1][up]])
    end = np.concatenate([number[1:][right], number[:, 1:][up]])
    arm = np.concatenate([-z[:-1][right], y[:, :-1][up]])
    faces, count = len(start), solid.sum()
    rows = np.concatenate([np.arange(faces)] * 2)
    D = sparse.csr_matrix((np.repeat([-1.0, 1.0], faces) / step, (rows, np.concatenate([start, end]))),
                          shape=(faces, count))
    w = np.zeros(count)
    w[1:] = spsolve((D.T @ D).tocsc()[1:, 1:], (D.T @ arm)[1:])
    J = ((arm - D @ w) ** 2).sum() * step ** 2

    # About the shear centre w has no product with 1, y or z.
    y, z = y[solid] - y[solid].mean(), z[solid] - z[solid].mean()
    basis = np.column_stack([np.ones(count), y, z])
    part = np.linalg.lstsq(basis, w, rcond=None)[0]
    rest = w - basis @ part
    # w about O is w about S + y_S z - z_S y and a constant.
    return np.array([J, part[2], -part[1], (rest ** 2).sum() * step ** 2])


def main():
    cases = json.loads(subprocess.run(sys.argv[1:], capture_output=True, check=True, text=True).stdout)
    bad = False
    before = {}
    for case in cases:
        t, L = case["thickness"], case["length"]
        coarse, fine = (solve(case["plates"], t / n) for n in (10, 20))
        J, y_S, z_S, Cw = fine + (fine - coarse) / 3
        open_wall = case["cells"] < 1e-6 * case["J"]
        ours = case["shear_centre"]
        miss = {"J": case["J"] / J - 1, "e": (ours[0] - y_S) / WIDTH_M, "Cw": case["Cw"] / Cw - 1}
        # Open: each free end loses 0.105 t^4 of J (Roark's strip), which corners give back in part. Closed:
        # current turns a square corner as through 0.559 of a square, not 1 (two-dimensional conduction,
        # from memory), so the way around is 0.44 t shorter at each, and J higher in that measure.
        # Corner squares lie t/4 from where midlines put them: a tenth of t/b on the shear centre is ample.
        # Cw of cells is a small difference of arms and flows and takes their error whole.
        allowed = {"J": 0.63 * t / L if open_wall else case["corners"] * 0.45 * t / L,
                   "e": 0.1 * t / WIDTH_M, "Cw": t / WIDTH_M if not open_wall else 0.1 * t / WIDTH_M}
        name, _, _ = case["name"].rpartition(", ")
        for what, share in miss.items():
            print(f"{case['name']}: {what} off {100 * share:+.2f} %, allowed {100 * allowed[what]:.2f} %")
            bad |= not abs(share) <= allowed[what]
            if name in before:
                was = before[name][what]
                bad |= not (abs(share) <= HALVED * abs(was) or abs(share) < GRID)
        before[name] = miss
        bad |= abs(z_S - ours[1]) > 1e-6
    return 1 if bad or len(cases) != 6 else 0


if __name__ == "__main__":
    sys.exit(main())
