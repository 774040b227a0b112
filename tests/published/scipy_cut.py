"""A small frame on stands whose middle tube is cut out, as SciPy finds it.

The frame is built here anew: its beams by the matrix exponential of their equations (bending with shear, St Venant's and Vlasov's torsion),
its joints as docs/design/frame-model.md has them (tubes through webs that turn with the rail's warping), the stands by trying every set of
them. Taken from the program are the numbers of its two sections, which other tests are about, and its answer, which is compared.

    scipy_cut.py CUT_CASE

SciPy: P. Virtanen et al., "SciPy 1.0", Nature Methods 17 (2020) 261-272.
"""

import itertools
import json
import subprocess
import sys

import numpy as np
from scipy.linalg import expm, solve

SHARE = 1e-6  # Of the largest number of a kind.
E, NU = 205e9, 0.3
G = E / (2 + 2 * NU)
HALF, HEIGHT, LENGTH = 0.4, 0.6, 3.0
DEPTH, FLANGE, WALL = 0.145, 0.0475, 0.005  # Of the rails, by midlines.
TUBES = {"front": 0.1, "middle": 1.5, "rear": 2.9}
TUBE_RADIUS, TUBE_WALL = 0.0275, 0.005
MOUNTS = [(1.3, 0.55, 4000), (1.3, -0.55, 3000), (1.9, 0.5, 800)]  # Station, offset, N.
STANDS = [(0.25, 1), (0.25, -1), (2.75, 1), (2.75, -1)]


def joint_springs():
    """Tilt, swing, push of a tube through a web: the table of docs/design/frame-model.md."""
    a, t, tc, b = 2 * TUBE_RADIUS / DEPTH, WALL / DEPTH, TUBE_WALL / WALL, FLANGE / DEPTH

    def law(factor, height, strips, foot, wall, side):
        return factor * a ** height * (1 - a) ** strips * tc ** foot * t ** wall * b ** side

    unit = E * WALL ** 3
    return (unit * law(0.475, 0.329, -2.028, 0.489, -0.251, 0.075), unit * law(0.673, 0.333, -1.437, 0.394, -0.130, 0.056),
            unit / DEPTH ** 2 * law(2.613, -0.151, -2.038, 0.365, -0.147, 0.104))


def beam_stiffness(s, length):
    """On u_C, v_S, w_S, three turns and the twist rate at both ends."""
    A = np.zeros((14, 14))
    u, v, w, rx, ry, rz, rate, N, Vy, Vz, T, My, Mz, B = range(14)
    A[u, N] = 1 / (E * s["A"])
    A[v, rz], A[v, Vy] = 1, 1 / (G * s["A_y"])
    A[w, ry], A[w, Vz] = -1, 1 / (G * s["A_z"])
    A[ry, My], A[rz, Mz] = 1 / (E * s["I_y"]), 1 / (E * s["I_z"])
    A[My, Vz], A[Mz, Vy] = 1, -1
    if s["C_w"]:
        A[rx, rate], A[rate, B], A[B, T], A[B, rate] = 1, -1 / (E * s["C_w"]), 1, -G * s["J"]
        keep = list(range(14))
    else:
        A[rx, T] = 1 / (G * s["J"])
        keep = [i for i in range(14) if i not in (rate, B)]
    n = len(keep) // 2
    across = expm(A[np.ix_(keep, keep)] * length)
    q_q, q_f, f_q, f_f = across[:n, :n], across[:n, n:], across[n:, :n], across[n:, n:]
    back = np.linalg.inv(q_f)
    k = np.block([[back @ q_q, -back], [f_q - f_f @ back @ q_q, f_f @ back]])
    if s["C_w"]:  # What does work on the twist rate is -B.
        k[[6, 13]] *= -1
    return k


class Frame:
    """Dense; every freedom a column of `motion` on independent ones."""

    def __init__(self):
        self.count = 0
        self.pieces = []

    def free(self, n):
        self.count += n
        return [{i: 1.0} for i in range(self.count - n, self.count)]

    def beam(self, s, start, end, out, first, second):
        """From start to end; `out` the section's y axis; ends as six motions, and a seventh of one that warps."""
        start, end = np.array(start), np.array(end)
        length = np.linalg.norm(end - start)
        x = (end - start) / length
        R = np.stack([x, out, np.cross(x, out)])
        n = 7 if s["C_w"] else 6
        to_axes = np.zeros((n, n))
        to_axes[:3, :3] = to_axes[3:6, 3:6] = R
        offset = np.eye(n)
        offset[0, 5], offset[2, 3] = -s["y_C"], s["y_S"]
        if s["C_w"]:
            to_axes[6, 6] = 1
        T = np.kron(np.eye(2), offset @ to_axes)
        k = T.T @ beam_stiffness(s, length) @ T
        self.pieces.append((first[:n] + second[:n], (k + k.T) / 2))
        return T, beam_stiffness(s, length)

    def spring(self, motion, k):
        self.pieces.append(([motion], np.array([[k]])))

    def rows(self, motions):
        out = np.zeros((len(motions), self.count))
        for i, motion in enumerate(motions):
            for j, factor in motion.items():
                out[i, j] += factor
        return out

    def stiffness(self):
        K = np.zeros((self.count, self.count))
        for motions, k in self.pieces:
            rows = self.rows(motions)
            K += rows.T @ k @ rows
        return K


def plus(motion, other, factor):
    out = dict(motion)
    for j, value in other.items():
        out[j] = out.get(j, 0) + factor * value
    return out


class Ladder:
    def __init__(self, rail, tube, parts):
        self.frame = Frame()
        self.webs = {}  # (station, sign): six motions of the web's middle.
        stations = sorted({0.0, LENGTH, *TUBES.values(), *(s for s, _, _ in MOUNTS), *(s for s, _ in STANDS)})
        for sign in (1, -1):
            nodes = [self.frame.free(7) for _ in stations]
            inwards = np.array([0.0, -sign, 0.0])
            place = [[-s, sign * HALF, HEIGHT] for s in stations]
            for i in range(len(stations) - 1):
                # x so that z is up: rearward on the left, forward on the right.
                ends = (i, i + 1) if sign > 0 else (i + 1, i)
                self.frame.beam(rail, place[ends[0]], place[ends[1]], inwards, nodes[ends[0]], nodes[ends[1]])
            for station, node in zip(stations, nodes):
                # The web turns about the line across by the slope e of the sectorial coordinate: w = z e there, u = -w (twist rate).
                along = np.cross(inwards, [0, 0, 1.0])  # The beam's x.
                web = node[:6]
                turn = -(-rail["y_S"]) * np.array([0.0, -sign, 0.0])  # About y of the section.
                web = [plus(m, node[6], t) for m, t in zip(web, [0, 0, 0, *turn])]
                assert along[1] == 0
                self.webs[station, sign] = web
        self.tubes = {}
        for name in parts:
            self.add_tube(name, tube)

    def add_tube(self, name, tube):
        station, ends = TUBES[name], []
        for sign in (1, -1):
            web, give = self.webs[station, sign], self.frame.free(3)
            for motion, k in zip(give, joint_springs()):
                self.frame.spring(motion, k)
            tilt, swing, push = give
            end = list(web)
            end[3], end[5], end[1] = plus(end[3], tilt, 1), plus(end[5], swing, 1), plus(end[1], push, 1)
            ends.append(end)
        left, right = [-station, HALF, HEIGHT], [-station, -HALF, HEIGHT]
        T, k = self.frame.beam(tube, left, right, np.array([1.0, 0, 0]), *ends)
        self.tubes[name] = (ends[0] + ends[1], k @ T)

    def load(self):
        f = np.zeros(self.frame.count)
        for station, offset, force in MOUNTS:
            sign = 1 if offset > 0 else -1
            arm = np.array([0, offset - sign * HALF, 0])
            push = np.array([0, 0, -force])
            f += self.frame.rows(self.webs[station, sign]).T @ np.concatenate([push, np.cross(arm, push)])
        return f

    def stand_rows(self, axis):
        return np.vstack([self.frame.rows([self.webs[key][axis]]) for key in STANDS])

    def settle(self):
        """Of all sets of stands that carry the one that pushes only, and under whose others there is air."""
        K, f = self.frame.stiffness(), self.load()
        x, y, z = (self.stand_rows(axis) for axis in range(3))
        places = np.array([[-s, sign * HALF] for s, sign in STANDS])
        away = places - places.mean(axis=0)
        plan = np.vstack([x.sum(axis=0), y.sum(axis=0), away[:, 0] @ y - away[:, 1] @ x])
        for count in (4, 3):
            for carry in itertools.combinations(range(4), count):
                held = np.vstack([z[list(carry)], plan * 1e6])  # To one scale with what they hold, for the solver.
                n, m = len(f), len(held)
                top = np.hstack([K, -held.T])
                answer = solve(np.vstack([top, np.hstack([held, np.zeros((m, m))])]), np.concatenate([f, np.zeros(m)]))
                forces = np.zeros(4)
                forces[list(carry)] = answer[n:n + count]
                motion = answer[:n]
                if forces.min() > -1e-9 and (z @ motion).min() > -1e-12:
                    return motion, forces
        raise RuntimeError("no set of stands carries")

    def at(self, motion, station, sign):
        return self.frame.rows(self.webs[station, sign])[:3] @ motion


def compare(name, ours, theirs, largest=None):
    ours, theirs = np.atleast_1d(ours), np.atleast_1d(theirs)
    off = abs(ours - theirs).max() / (largest or abs(theirs).max())
    print(f"{name}: program {ours}, SciPy {theirs}, {off:.1e}")
    return off <= SHARE


def main():
    ours = json.loads(subprocess.run(sys.argv[1:], capture_output=True, text=True, check=True).stdout)
    whole = Ladder(ours["rail"], ours["tube"], TUBES)
    rest = Ladder(ours["rail"], ours["tube"], ["front", "rear"])
    (before, stands_before), (after, stands_after) = whole.settle(), rest.settle()

    def moved(station, sign):
        return rest.at(after, station, sign) - whole.at(before, station, sign)

    order = [STANDS.index((round(-x, 9), 1 if y > 0 else -1)) for x, y, _ in ours["stands"]]
    good = compare("stands before, N", ours["stands_before"], stands_before[order])
    good &= compare("stands after, N", ours["after"]["stands"], stands_after[order])
    motions, k = whole.tubes["middle"]
    ends = k @ (whole.frame.rows(motions) @ before)
    # On the tube's ends; on a face whose x runs outwards the right one is itself, the left one turned.
    left, right = -ends[:6], ends[6:]
    forces = max(abs(np.array(ours["left_end"])[:3]).max(), abs(np.array(ours["right_end"])[:3]).max())
    moments = max(abs(np.array(ours["left_end"])[3:]).max(), abs(np.array(ours["right_end"])[3:]).max())
    for name, mine, theirs in (("left", left, ours["left_end"]), ("right", right, ours["right_end"])):
        good &= compare(f"forces at the {name} end, N", theirs[:3], mine[:3], forces)
        good &= compare(f"moments at the {name} end, N m", theirs[3:], mine[3:], moments)
    good &= compare("rails spring at the cut (ahead, apart, up), m", ours["spring"], moved(1.5, 1) - moved(1.5, -1))
    places = {key[0] for key in whole.webs}
    heights = [moved(s, sign)[2] for s in places for sign in (1, -1) if 0.25 <= s <= 2.75]
    good &= compare("greatest change of height, m", ours["after"]["height"], max(heights, key=abs))
    for key, sign in (("left_front", 1), ("right_front", -1)):
        way = np.array([2.5, 2 * sign * HALF, 0]) / np.hypot(2.5, 2 * HALF)
        change = way @ (moved(0.25, sign) - moved(2.75, -sign))
        good &= compare(f"diagonal from the {key.replace('_', ' ')}, m", ours["after"][key], change, abs(np.array(ours["spring"])).max())
    sys.exit(0 if good else 1)


if __name__ == "__main__":
    main()
