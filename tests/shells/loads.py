"""The load cases of a frame, each in equilibrium by itself.

A case is a list of (station, side, axis 1 x / 2 y / 3 z, share): forces of `share` times the load on the web of a rail at a
station, even over its depth. What belongs to the load is the sum of share times displacement, with the same weights: rigid
motion drops out, and stiffness = load / that.
"""

import numpy as np

LOADS = {"torsion": 1000.0, "bending": 10000.0, "lozenging": 1000.0}  # N m, N, N.
MIRRORED = {"torsion": False, "bending": True, "lozenging": False}  # Or with the opposite sign on the right.
UNITS = {"torsion": "Nm_per_rad", "bending": "N_per_m", "lozenging": "N_per_m"}


def shares(name, case):
    front, middle, rear = (case["stations_m"][k] for k in ("front", "middle", "rear"))
    B, L = case["web_to_web_m"], rear - front
    if name == "torsion":  # Couples of vertical forces at the webs: front about +x, rear about -x.
        return [(front, "left", 3, 1 / B), (front, "right", 3, -1 / B),
                (rear, "left", 3, -1 / B), (rear, "right", 3, 1 / B)]
    if name == "bending":  # Down on both rails in the middle, carried at front and rear.
        at_front = (rear - middle) / L
        return [(station, side, 3, share / 2) for side in ("left", "right")
                for station, share in ((front, at_front), (middle, -1.0), (rear, 1 - at_front))]
    if name == "lozenging":  # Left rail forward, right rail back, and the couple's balance across.
        return [(station, side, 1, (0.5 if side == "left" else -0.5))
                for station in (front, rear) for side in ("left", "right")] + [
                    (station, side, 2, sign * B / L / 2)
                    for station, sign in ((front, 1), (rear, -1)) for side in ("left", "right")]
    raise ValueError(name)


def nodal(frame, name):
    """[(node, axis, share)] of a unit load on the left rail; the right rail's are their images."""
    out = []
    for station, side, axis, share in shares(name, frame.case):
        if side == "left":
            nodes, weights = frame.web_line(station)
            out += [(int(n), axis, share * w) for n, w in zip(nodes, weights)]
    return out


def check_balance(name, case):
    """Raises unless forces and moments of a unit load sum to nothing and left and right are images."""
    f, t = np.zeros(3), np.zeros(3)
    image = {1: 1, 2: -1, 3: 1}
    sign = 1 if MIRRORED[name] else -1
    forces = shares(name, case)
    for station, side, axis, share in forces:
        vector = np.zeros(3)
        vector[axis - 1] = share
        f += vector
        t += np.cross([-station, case["web_to_web_m"] / 2 * (1 if side == "left" else -1), 0], vector)
        other = [s for st, sd, ax, s in forces if (st, ax) == (station, axis) and sd != side]
        if len(other) != 1 or abs(other[0] - sign * image[axis] * share) > 1e-9:
            raise ValueError(f"{name}: left and right are not images")
    if max(abs(f).max(), abs(t).max()) > 1e-9:
        raise ValueError(f"{name}: loads do not balance: {f}, {t}")


def holds(frame, mirrored):
    """Supports of the left half: what symmetry says of the cut at y = 0, and three that hold what rigid motion is left and
    carry nothing. (node, axis 1..3 or 4..6 for rotations)

    The turns of a round wall's nodes stay free: held about two axes that are not the wall's own they hold it in the third as well,
    and a tube that may turn about itself would be clamped (the moment M_y it then takes was 5.6 % of frame C's in bending).
    """
    mesh = frame.mesh
    cut = np.flatnonzero(abs(mesh.nodes[:, 1]) < 1e-6)
    is_round = np.char.endswith(mesh.region.astype(str), " tube")
    round_nodes = set(mesh.elements[is_round].ravel())
    axes = (2, 4, 6) if mirrored else (1, 3, 5)
    front, rear = (frame.mesh.find(frame.rail.place(frame.case["stations_m"][k], 0.0, 0.0)) for k in ("front", "rear"))
    three = [(front, 1), (front, 3), (rear, 3)] if mirrored else [(front, 2), (front, 3), (rear, 2)]
    return [(int(n), axis) for n in cut for axis in axes if axis <= 3 or n not in round_nodes] + three


def moved(forces, displacement):
    """What belongs to the load: sum of share times displacement, over both rails."""
    return 2 * sum(share * displacement[node][axis - 1] for node, axis, share in forces)
