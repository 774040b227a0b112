"""What of a stub's compliance (stub.py) is the joint's: the beams' share taken off."""

import numpy as np

from beams import Beams, Section, channel_path, open_section, tube
from rail import Rail, plate_inset
from theory import box_torsion_constant

OUT = {"aft": (-1.0, 0.0, 0.0), "forward": (1.0, 0.0, 0.0), "down": (0.0, 0.0, -1.0)}  # From a channel's web to its flanges' edges.
END = 0.315  # Of its thickness, what a shell's wall loses of its St Venant length at each end, free or at a fold.


def shell_section(h, b, t, bend=0.0):
    """A channel with the St Venant constant that shells have."""
    section = open_section(channel_path(h, b, bend), t)
    section.J *= 1 - (2 if bend else 6) * END * t / (section.A / t)
    return section


def box_section(rail, box):
    """A rail with its boxing plate, about the web's mid-plane."""
    h, w, t, plate = rail.h, plate_inset(rail, box), rail.t, box["thickness_m"]
    A = h * t + h * plate + 2 * w * t
    y_C = (h * plate * w + w * w * t) / A
    I_y = h ** 3 * (t + plate) / 12 + w * t * h * h / 2
    I_z = h * plate * w * w + 2 * t * w ** 3 / 3 - A * y_C ** 2
    # Shear flows of V_z = 1: of the section open at the web's middle, and what closes it without twist.
    web, flange = h * h * t / 8, h * w * t / 2  # First moments that a half of the web, a flange adds.
    in_flange, in_plate = web + flange / 2, web + flange + h * h * plate / 12  # Means.
    closing = (h / t * web / 3 + 2 * w / t * in_flange + h / plate * in_plate) / ((h + 2 * w) / t + h / plate)
    y_S = h * w * (in_flange + in_plate - 2 * closing) / I_y
    return Section(A, I_y, I_z, box_torsion_constant(h, w, t, plate), 0.0, y_C, y_S, 2 * w * t, h * (t + plate))


def crossmember_section(part):
    t = part["thickness_m"]
    if part["kind"] == "tube":
        return tube((part["outside_diameter_m"] - t) / 2, t)
    return shell_section(part["depth_m"] - t, part["flange_m"] - t / 2, t)


def warping(part):
    """Sectorial coordinate at points (x, z) of a channel's section, of `part`, for the axis +y."""
    t = part["thickness_m"]
    h = part["depth_m"] - t
    e = -crossmember_section(part).y_S
    out_axis = np.array(OUT[part["opens"]])
    up_axis = np.cross([0.0, 1.0, 0.0], out_axis)

    def at(points):
        out, up = points @ out_axis[[0, 2]], points @ up_axis[[0, 2]]
        return np.where(out < 1e-9, e * up, np.sign(up) * h / 2 * (e - out))

    return at


def web_compliance(case):
    """Of the web at the joint: six freedoms, turns with the web, and the rail's twist rate. The rail's clamped ends do not warp.

    Along the flange of a flush channel the rail's flanges stay straight: the twist rate is one there.
    """
    rail = Rail(case["rail"], case["web_to_web_m"])
    part, boxes = case["crossmembers"][0], case.get("boxing")
    section = box_section(rail, boxes[0]) if boxes else shell_section(rail.h, rail.b, rail.t, rail.bend)
    station = part["station_m"]
    stations = [0.0, station, rail.length]
    if part.get("weld") == "flush":
        stations.insert(2, station + part["flange_m"] - part["thickness_m"] / 2)
    model = Beams(case["E_Pa"], case["nu"])
    joints = [model.freedoms(6) for _ in stations]
    rates = [model.freedoms(1)[0] for _ in stations]
    model.hold(joints[0] + joints[-1] + (rates if boxes else [rates[0], rates[-1]]))
    for other in rates[2:-1]:
        model.follow(other, [(rates[1], 1.0)])
    at = [rail.place(s, 0.0, 0.0) for s in stations]
    for i in range(len(at) - 1):
        model.beam(section, at[i], at[i + 1], joints[i:i + 2], rates[i:i + 2], np.array([0, -1.0, 0]))
    web = model.freedoms(7)
    for k in range(6):
        model.follow(web[k], [(joints[1][k], 1.0)] + ([(rates[1], section.web_turn)] if k == 4 else []))
    model.follow(web[6], [(rates[1], 1.0)])
    return model.compliance(web)


def web_motion(part, start):
    """What the crossmember's end would do if it went with the web: rows its freedoms, columns those of `web_compliance`.

    A web that twists becomes a saddle, y = -x z (twist rate): for a channel on it a turn, that of the saddle at the place
    P where its sectorial coordinate is zero, and its own warping.
    """
    height = part.get("height_m", 0.0)
    motion = np.zeros((7, 7))
    motion[:6, :6] = np.eye(6)
    motion[:3, 3:6] = np.array([np.cross(turn, [0.0, -start, height]) for turn in np.eye(3)]).T
    if part["kind"] == "tube":
        return motion[:6]
    out = np.array(OUT[part["opens"]])
    x, _, z = -crossmember_section(part).y_S * out + [0.0, 0.0, height]
    motion[[3, 5, 6], 6] = x, -z, 1.0 if out[0] else -1.0
    return motion


def beam_taken_off(case, stub, start):
    """Compliance at the crossmember's end at inset `start` on its line: 6 x 6, or 7 x 7 with the twist rate about +y."""
    part = case["crossmembers"][0]
    section = crossmember_section(part)
    model = Beams(case["E_Pa"], case["nu"])
    n = 7 if section.C_w else 6
    free, end = model.freedoms(n), model.freedoms(n)
    rail = Rail(case["rail"], case["web_to_web_m"])
    height = part.get("height_m", 0.0)
    cut = np.array([-part["station_m"], 0.0, height])
    rates = [free[6], end[6]] if section.C_w else [None, None]
    model.beam(section, cut, rail.place(part["station_m"], start, height), [free[:6], end[:6]], rates,
               np.array(OUT[part.get("opens", "aft")]))
    (ids, k), = model.pieces
    order = np.argsort(ids)
    k = k[np.ix_(order, order)]
    ff, fe, ee = k[:n, :n], k[:n, n:], k[n:, n:]
    return np.linalg.inv(fe.T @ np.linalg.solve(ff - np.linalg.inv(stub), fe) - ee)


def joint_compliance(case, stub, start=0.0):
    """What the joint adds at the crossmember's end (`beam_taken_off`) to the rail's compliance at its web."""
    motion = web_motion(case["crossmembers"][0], start)
    return beam_taken_off(case, stub, start) - motion @ web_compliance(case) @ motion.T
