"""How a bolted joint stiffens the rail itself against twist: a spring on the rail's twist rate, by shells less beams.

A lone rail with the joint in its middle and the crossmember's other end free, its end sections rigid in their planes and free to warp: what its
beams with the joint's springs (joints.py) lack of the shells' torsion stiffness. Two plates that are bolted together twist as one thicker one.
"""

import numpy as np
from scipy.optimize import brentq

import calculix
import stub
import stub_beams
from beams import Beams
from frame import make_frame
from lapped import lap_springs
from rail import Rail

LONG = 8.0  # Rail depths between the ends.
MOST_Nm3 = 1e5


def shells(case, density):
    """N m/rad between the end sections (member.py, warping free)."""
    frame = make_frame(case, density)
    mesh, length = frame.mesh, frame.rail.length
    model = calculix.Model(mesh, case["E_Pa"], case["nu"])
    front, rear = (np.flatnonzero(abs(mesh.nodes[:, 0] + s) < 1e-6) for s in (0, length))
    side = frame.rail.place(0.0, 0.0, 0.0)[1]
    model.supports = [(int(n), axis) for n in front for axis in (2, 3)]
    moves, turns = model.add_rigid(rear, np.array([-length, side, 0]), axes=(2, 3))
    model.supports += [(turns, 2), (turns, 3), (moves, 2), (moves, 3), (mesh.find([0, side, 0]), 1)]
    for tie in frame.ties:
        model.add_rigid(tie, mesh.nodes[tie].mean(axis=0))
    model.steps = [[(turns, 1, 1000.0)]]
    model.watched_nodes = [turns]
    return 1000.0 / calculix.solve(model).displacement[0][turns][0]


def beams(case, joint, k):
    """The same of beams, with `joint(model, rail freedoms, twist rate, end freedoms)` between rail and crossmember."""
    rail, part = Rail(case["rail"], case["web_to_web_m"]), case["crossmembers"][0]
    section, other = stub_beams.shell_section(rail.h, rail.b, rail.t, rail.bend), stub_beams.crossmember_section(part)
    model = Beams(case["E_Pa"], case["nu"])
    joints, rates = [model.freedoms(6) for _ in range(3)], model.freedoms(3)
    model.hold(joints[0][:4] + joints[2][1:3])
    at = [rail.place(s, 0.0, 0.0) for s in (0.0, part["station_m"], rail.length)]
    for i in (0, 1):
        model.beam(section, at[i], at[i + 1], joints[i:i + 2], rates[i:i + 2], np.array([0, -1.0, 0]))
    model.spring([rates[1]], [[k]])
    end, free = model.freedoms(7), model.freedoms(7)
    start = joint(model, section, joints[1], rates[1], end)
    model.beam(other, np.array([-part["station_m"], 0.0, 0.0]), rail.place(part["station_m"], start, 0.0), [free[:6], end[:6]],
               [free[6], end[6]], np.array(stub_beams.OUT[part["opens"]]))
    return 1 / model.compliance([joints[2][3]])[0, 0]


def plate_joint(entry, result, start):
    """The springs as the program has them: each turn by itself, push and swing about their centre."""
    C = np.diag([1e-12, result["y_m_per_N"], 1e-12, *(result[f"{axis}_rad_per_Nm"] for axis in "xyz"), result["rate_per_m_per_Nm2"]])
    C[1, 5] = C[5, 1] = result["yz_rad_per_N"]

    def add(model, section, joint, rate, end):
        web = np.eye(7)
        web[4, 6] = section.web_turn
        both = np.hstack([np.eye(7), -stub_beams.web_motion(entry["part"], start) @ web])
        model.spring(end + joint + [rate], both.T @ np.linalg.inv(C) @ both)
        return start

    return add


def flange_joint(entry, result, case):
    def add(model, section, joint, rate, end):
        return lap_springs(model, case, section, joint + [rate], end, [result[name] for name in
                                                                      ("along_N_per_m", "across_N_per_m", "up_N_per_m", "turn_Nm_per_rad")])

    return add


def stiffening(entry, result, start, density):
    """N m3."""
    case = stub.make_case(entry["rail"], entry["part"], long=LONG)
    joint = plate_joint(entry, result, start) if "plate" in entry["part"] else flange_joint(entry, result, case)
    wanted = shells(case, density)
    return brentq(lambda k: beams(case, joint, k) - wanted, -100, MOST_Nm3)
