#!/usr/bin/env python3
"""Power laws through results/joints.json and results/junctions.json: what src/frame/joint_stiffness.cc has.

    fits.py

Each line: a stiffness or compliance made plain by E and a length, its powers of the joint's proportions by least squares of logarithms,
the largest error, and the ranges of the proportions.
"""

import json
from pathlib import Path

import numpy as np

from rail import Rail

HERE = Path(__file__).resolve().parent
E = 2.05e11


def read(name):
    return [json.loads((HERE / folder / f"{name}.json").read_text()) for folder in ("cases", "results")]


def fit(title, rows):
    """rows: (name, value, {ratio: value}). Prints constant, powers, errors, ranges."""
    keys = list(rows[0][2])
    A = np.array([[1.0] + [np.log(ratios[k]) for k in keys] for _, _, ratios in rows])
    y = np.log([value for _, value, _ in rows])
    c = np.linalg.lstsq(A, y, rcond=None)[0]
    off = np.exp(A @ c - y) - 1
    print(f"\n{title} = {np.exp(c[0]):.4g} " + " ".join(f"({k})^{p:.3f}" for k, p in zip(keys, c[1:])))
    print("   ranges: " + "; ".join(f"{k} {min(v):.3g} to {max(v):.3g}" for k, v in
                                   ((k, [r[k] for _, _, r in rows]) for k in keys)))
    print(f"   {len(rows)} runs, largest errors: " + "; ".join(
        f"{rows[i][0]} {100 * off[i]:+.1f} %" for i in np.argsort(-abs(off))[:3]))
    return c


def foot_ratios(rail, wall_t, side, height, length, foot_t):
    """Of what is welded to a wall wall_t thick: a height, c length, tc its own wall. `side`: (name, value)."""
    return {"a/h": height / rail.h, "1-a/h": 1 - height / rail.h, "c/h": length / rail.h, "tc/t": foot_t / wall_t,
            "t/h": wall_t / rail.h, side[0]: side[1]}


def stiffnesses(result, wall_t, h, tilts):
    """Made plain; the push at the centre, from where the foot's web is by how far it moves under the turn that goes with it."""
    turn = "x" if tilts else "z"
    centre = result.get(f"y{turn}_rad_per_N", 0.0) / result[f"{turn}_rad_per_Nm"]
    across = result["y_m_per_N"] - centre ** 2 * result[f"{turn}_rad_per_Nm"]
    unit = E * wall_t ** 3
    values = {"K_Mx / (E t^3)": 1 / result["x_rad_per_Nm"] / unit, "K_Mz / (E t^3)": 1 / result["z_rad_per_Nm"] / unit,
              "K_Fy h^2 / (E t^3)": h ** 2 / across / unit}
    if "rate_per_m_per_Nm2" in result:
        values["K_My / (E t^3)"] = 1 / result["y_rad_per_Nm"] / unit
        values["K_w / (E t^3 h^2)"] = 1 / result["rate_per_m_per_Nm2"] / unit / h ** 2
    return values, abs(centre)


def fit_feet(title, rows):
    """rows: (name, ratios, values, centre over the foot's length that way or None, bend of the rail over h)."""
    sharp = [row for row in rows if not row[4]]
    for key in sharp[0][2]:
        c = fit(f"{title}: {key}", [(name, values[key], ratios) for name, ratios, values, *_ in sharp])
        for name, ratios, values, _, bend in rows:
            if bend:
                plain = np.exp(c[0]) * np.prod([v ** p for v, p in zip(ratios.values(), c[1:])])
                print(f"   {name}: bend radius of midline / h {bend:.3f}, shells over formula {values[key] / plain:.3f}")
    centres = [row[3] for row in sharp if row[3]]
    if centres:
        print(f"   centre / flange: mean {np.mean(centres):.3f}, {min(centres):.3f} to {max(centres):.3f}")


THIN = 6  # Flange over wall of a channel: one that is stockier is no thin-walled beam.
DEEPEST = 0.9  # Of the rail's depth: beyond, the corner of the rail carries what the web does else.


def is_in_range(part, rail):
    t = part["thickness_m"]
    return part["flange_m"] - t / 2 >= THIN * t and (part["kind"] != "channel" or part["depth_m"] - t <= DEEPEST * rail.h)


def feet(cases, results):
    groups = {"tube through the web": [], "channel on the web": [], "flat channel on the web": [], "channel on a plate": []}
    for name, result in results.items():
        entry = cases[name]
        rail, part = Rail(entry["rail"] | {"length_m": 1.0}, 0.0), entry["part"]
        t, kind = part["thickness_m"], part["kind"]
        if kind not in ("tube", "channel", "flat_channel") or part.get("weld") == "flush" or kind != "tube" and not is_in_range(part, rail):
            continue
        wall, side = rail.t, ("b/h", rail.b / rail.h)
        if kind == "tube":
            title, height = "tube through the web", part["outside_diameter_m"] - t
            ratios = foot_ratios(rail, wall, side, height, 1.0, t)
            del ratios["c/h"]
            length = None
        else:
            height, length = part["depth_m"] - t, part["flange_m"] - t / 2
            title = "channel on the web"
            if kind == "flat_channel":
                title = "flat channel on the web"
                ratios = foot_ratios(rail, wall, side, length, height, t)
            elif "box_m" in entry:
                title, wall = "channel on a plate", entry["box_m"]
                ratios = foot_ratios(rail, wall, ("tr/t", rail.t / wall), height, length, t)
            else:
                ratios = foot_ratios(rail, wall, side, height, length, t)
        values, centre = stiffnesses(result, wall, rail.h, kind == "flat_channel")
        groups[title].append((name, ratios, values, centre / length if length else None, rail.bend / rail.h))
    for title, rows in groups.items():
        fit_feet(title, rows)


def junctions(cases, results):
    rows = []
    for name, result in results.items():
        rail = Rail(cases[name]["rail"] | {"length_m": 1.0}, 0.0)
        ratios = {"b/h": rail.b / rail.h, "t/h": rail.t / rail.h, "tp/t": cases[name]["plate_m"] / rail.t}
        rows.append((name, rail, ratios, result))
    for title, key, unit in (
            ("C11 E h^3", "C11_rad_per_Nm", lambda h: E * h ** 3), ("-C12 E h^4", "C12_per_Nm2", lambda h: -E * h ** 4),
            ("C22 E h^5", "C22_per_Nm3", lambda h: E * h ** 5), ("-rise 1 / h", "rise_m", lambda h: -1 / h),
            ("-rise 2 / h^2", "rise_m2", lambda h: -1 / h ** 2), ("-bend 1", "bend", lambda h: -1),
            ("bend 2 / h", "bend_m", lambda h: 1 / h), ("swing E h^3", "swing_rad_per_Nm", lambda h: E * h ** 3)):
        fit(title, [(name, result[key] * unit(rail.h), ratios) for name, rail, ratios, result in rows])


def flush(cases, results):
    """Channels between the flanges: tilt and roll, by E t h^2."""
    for title, key in (("tilt", "x_rad_per_Nm"), ("roll", "y_rad_per_Nm")):
        rows = []
        for name, result in results.items():
            rail, part = Rail(cases[name]["rail"] | {"length_m": 1.0}, 0.0), cases[name]["part"]
            if part.get("weld") != "flush":
                continue
            ratios = {"c/h": (part["flange_m"] - part["thickness_m"] / 2) / rail.h, "tc/t": part["thickness_m"] / rail.t,
                      "t/h": rail.t / rail.h, "b/h": rail.b / rail.h}
            rows.append((name, 1 / result[key] / (E * rail.t * rail.h ** 2), ratios))
        fit(f"channel between the flanges: {title} / (E t h^2)", rows)


def main():
    cases, results = read("joints")
    feet(cases, results)
    flush(cases, results)
    junctions(*read("junctions"))


if __name__ == "__main__":
    main()
