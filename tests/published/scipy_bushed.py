"""A bushed four-link with track bar as SciPy finds it: every bush a spring with its own give.

Each link is a rigid rod whose two ends sit in isotropic bushes (here its place and direction are
unknowns); the axle is free but for heave and roll. Least squares of all bush stretches is the energy
minimum. Reads the program's answer as JSON from the command given, and compares.

SciPy: P. Virtanen et al., "SciPy 1.0", Nature Methods 17 (2020) 261-272.
"""

import json
import subprocess
import sys

import numpy as np
from scipy.optimize import least_squares
from scipy.spatial.transform import Rotation

PLACE_M = 1e-7
ANGLE_RAD = 1e-6
FORCE_SHARE = 1e-6


def attitude(yaw, pitch, roll):
    """Rz(yaw) Ry(pitch) Rx(roll), written out so that complex steps go through it."""
    cy, sy, cp, sp, cr, sr = np.cos(yaw), np.sin(yaw), np.cos(pitch), np.sin(pitch), np.cos(roll), np.sin(roll)
    return np.array([[cy * cp, cy * sp * sr - sy * cr, cy * sp * cr + sy * sr],
                     [sy * cp, sy * sp * sr + cy * cr, sy * sp * cr - cy * sr],
                     [-sp, cp * sr, cp * cr]])


def solve(case, heave_z, roll, start):
    bars = case["bars"]
    rates = [2 / bar["compliance"] for bar in bars]  # Two equal bushes in series.

    def split(u):
        x, y, pitch, yaw = u[:4]
        return np.array([x, y, heave_z]), attitude(yaw, pitch, roll)

    def stretches(u):
        C, R = split(u)
        out = []
        for i, bar in enumerate(bars):
            middle = u[4 + 5 * i:7 + 5 * i]
            azimuth, rise = u[7 + 5 * i:9 + 5 * i]
            way = np.array([np.cos(rise) * np.cos(azimuth), np.cos(rise) * np.sin(azimuth), np.sin(rise)])
            frame_end = middle - way * bar["length"] / 2
            axle_end = middle + way * bar["length"] / 2
            weight = np.sqrt(rates[i] / 1e6)
            out.append(weight * (frame_end - np.array(bar["P"])))
            out.append(weight * (axle_end - (C + R @ np.array(bar["Q"]))))
        return np.concatenate(out)

    u = np.empty(4 + 5 * len(bars))
    u[:4] = start
    C, R = split(u)
    for i, bar in enumerate(bars):
        P, Q = np.array(bar["P"]), C + R @ np.array(bar["Q"])
        d = (Q - P) / np.linalg.norm(Q - P)
        u[4 + 5 * i:7 + 5 * i] = (P + Q) / 2
        u[7 + 5 * i:9 + 5 * i] = np.arctan2(d[1], d[0]), np.arcsin(d[2])
    found = least_squares(stretches, u, jac="cs", method="trf", x_scale="jac",
                          xtol=3e-16, ftol=3e-16, gtol=3e-16, max_nfev=20000)
    C, R = split(found.x)
    forces = []
    for bar in bars:
        gap = np.linalg.norm(C + R @ np.array(bar["Q"]) - np.array(bar["P"])) - bar["length"]
        forces.append(gap / bar["compliance"])
    return C, R, np.array(forces)


def main():
    case = json.loads(subprocess.run(sys.argv[1:], capture_output=True, check=True, text=True).stdout)
    worst = np.zeros(3)
    for pose in case["poses"]:
        x, y, z, roll, pitch, yaw = pose["q"]
        # Start away from the answer: as drawn.
        C, R, forces = solve(case, z, roll, [case["C"][0], 0.0, 0.0, 0.0])
        ours = Rotation.from_euler("ZYX", [yaw, pitch, roll])
        turned = (Rotation.from_matrix(R).inv() * ours).magnitude()
        expected = np.array(pose["forces"])
        scale = max(1.0, np.abs(expected).max())
        worst = np.maximum(worst, [np.linalg.norm(C - [x, y, z]), turned,
                                   np.abs(forces - expected).max() / scale])
    print(f"{len(case['poses'])} poses: worst place {worst[0]:.2e} m, attitude {worst[1]:.2e} rad, "
          f"force {worst[2]:.2e} of the greatest")
    assert len(case["poses"]) == 15
    return 0 if worst[0] < PLACE_M and worst[1] < ANGLE_RAD and worst[2] < FORCE_SHARE else 1


if __name__ == "__main__":
    sys.exit(main())
