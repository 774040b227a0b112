"""A crossmember's flanges bolted inside the rail's: the pair of in-plane springs that does as the shells do.

Above and below, at the middle of the bolts, between the rail's flange (which moves as the rail's section, warping included) and the
crossmember's: forces along the rail, across it and up, and the turn about the upright axis, as far as flanges and bolts give.
"""

import numpy as np
from scipy.optimize import least_squares

from beams import Beams
from rail import Rail
from stub_beams import beam_taken_off, shell_section, crossmember_section

AXES = ("along_N_per_m", "across_N_per_m", "up_N_per_m", "turn_Nm_per_rad")

MISFITS = [f"misfit_{name}" for name in ("x", "y", "z", "turn_x", "turn_y", "turn_z", "rate")]


def flange_motion(section, rotation, arm, height):
    """Rows: displacement (global x, y, z) of a flange's point and its turn in its plane, by 7 freedoms of a beam's end.

    `rotation`: rows are the beam's axes; `arm`: the point from O, global; `height`: of the flange from O, along the beam's z.
    A sectorial coordinate w slides the point along the beam by -w, and the flange turns by -height times the twist rate.
    """
    rows = np.zeros((4, 7))
    rows[:3, :3] = np.eye(3)
    for k in range(3):
        rows[:3, 3 + k] = np.cross(np.eye(3)[k], arm)
    y = rotation[1] @ arm
    w = height * (-section.y_S) - height * y
    rows[:3, 6] = -w * rotation[0]
    rows[3, 3:6] = rotation[2]
    rows[3, 6] = -height
    return rows


def bolts_middle(part):
    s, inset = np.mean(part["bolts"], axis=0)
    return s, inset


def model_compliance(case, stiffness):
    """At the crossmember's end (7 x 7, at the bolts' inset on its line), by the four stiffnesses."""
    rail = Rail(case["rail"], case["web_to_web_m"])
    part = case["crossmembers"][0]
    section = shell_section(rail.h, rail.b, rail.t, rail.bend)
    model = Beams(case["E_Pa"], case["nu"])
    joints, rates = [model.freedoms(6) for _ in range(3)], model.freedoms(3)
    model.hold(joints[0] + joints[2] + [rates[0], rates[2]])
    at = [rail.place(s, 0.0, 0.0) for s in (0.0, part["station_m"], rail.length)]
    for i in (0, 1):
        model.beam(section, at[i], at[i + 1], joints[i:i + 2], rates[i:i + 2], np.array([0, -1.0, 0]))
    end = model.freedoms(7)
    lap_springs(model, case, section, joints[1] + [rates[1]], end, stiffness)
    return model.compliance(end)


def lap_springs(model, case, section, web, end, stiffness):
    """Between seven freedoms of the rail and of the crossmember's end; returns where that is, from the rail's web."""
    rail, part = Rail(case["rail"], case["web_to_web_m"]), case["crossmembers"][0]
    other = crossmember_section(part)
    s, inset = bolts_middle(part)
    aft = 1 if part["opens"] == "aft" else -1
    rail_axes = np.array([[-1.0, 0, 0], [0, -1, 0], [0, 0, 1]])
    own_axes = np.array([[0, 1.0, 0], [-aft, 0, 0], [0, 0, aft]])
    for sign in (1, -1):
        height = sign * (rail.h + other_height(part)) / 4  # Between the two flanges.
        a = flange_motion(section, rail_axes, np.array([-s, -inset, height]), height)
        b = flange_motion(other, own_axes, np.array([-s, 0.0, height]), aft * height)
        b[3] *= aft  # Both turns about z up.
        both = np.hstack([-a, b])
        model.spring(web + end, both.T @ np.diag(stiffness) @ both)
    return inset


def other_height(part):
    return part["depth_m"] - part["thickness_m"]


def find_springs(case, stub):
    """The four stiffnesses that come nearest to the stub's compliance, and its diagonal's misfit (shares)."""
    part = case["crossmembers"][0]
    _, inset = bolts_middle(part)
    wanted = beam_taken_off(case, stub, inset)
    scale = np.sqrt(np.outer(np.diag(wanted), np.diag(wanted)))

    def misfit(logs):
        return ((model_compliance(case, np.exp(logs)) - wanted) / scale)[np.triu_indices(7)]

    found = least_squares(misfit, np.log([1e8, 1e8, 1e7, 1e5]))
    share = np.diag(model_compliance(case, np.exp(found.x))) / np.diag(wanted) - 1
    return dict(zip(AXES, np.exp(found.x))), share
