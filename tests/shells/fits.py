#!/usr/bin/env python3
"""Power laws through results/joints.json and results/junctions.json: what docs/design/frame-joints.md prints.

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


def tube_ratios(entry):
    rail, part = Rail(entry["rail"] | {"length_m": 1.0}, 0.0), entry["part"]
    r = (part["outside_diameter_m"] - part["thickness_m"]) / 2
    return rail, {"2r/h": 2 * r / rail.h, "tt/t": part["thickness_m"] / rail.t, "t/h": rail.t / rail.h, "b/h": rail.b / rail.h}




def tubes(cases, results):
    tubes = [(name, cases[name], results[name]) for name in results if cases[name]["part"]["kind"] == "tube"]
    for title, key, constant, powers, length in (
            ("K_Mx / (E t^3)", "x_rad_per_Nm", 2.152, (1.311, 0.464, -0.349, 0.021), lambda r: r.t ** 3),
            ("K_Mz / (E t^3)", "z_rad_per_Nm", 2.001, (1.062, 0.396, -0.207, 0.012), lambda r: r.t ** 3),
            ("K_Fy h^2 / (E t^3)", "y_m_per_N", 17.75, (0.813, 0.334, -0.118, -0.035), lambda r: r.t ** 3 / r.h ** 2)):
        sharp, bent, off = [], [], []
        for name, entry, result in tubes:
            rail, ratios = tube_ratios(entry)
            value = 1 / result[key] / (E * length(rail))
            (bent if rail.bend else sharp).append((name, value, ratios, rail))
            if not rail.bend:
                off.append((constant * np.prod([v ** p for v, p in zip(ratios.values(), powers)]) / value - 1, name))
        worst = max(off, key=lambda o: abs(o[0]))
        print(f"\n{title}: the earlier formula is {100 * np.mean([o for o, _ in off]):+.1f} % in the mean, "
              f"{100 * worst[0]:+.1f} % at worst ({worst[1]})")
        c = fit(title, [row[:3] for row in sharp])
        for name, value, ratios, rail in bent:
            plain = np.exp(c[0]) * np.prod([v ** p for v, p in zip(ratios.values(), c[1:])])
            print(f"   {name}: bend radius of midline / h {rail.bend / rail.h:.3f}, shells over formula {value / plain:.3f}")


def channels(cases, results):
    sharp = []
    for name, result in results.items():
        entry = cases[name]
        if entry["part"]["kind"] != "channel":
            continue
        rail, part = Rail(entry["rail"] | {"length_m": 1.0}, 0.0), entry["part"]
        t = part["thickness_m"]
        h, b = part["depth_m"] - t, part["flange_m"] - t / 2
        ratios = {"hc/h": h / rail.h, "bc/h": b / rail.h, "tc/t": t / rail.t, "t/h": rail.t / rail.h, "b/h": rail.b / rail.h}
        d = result["yz_rad_per_N"] / result["z_rad_per_Nm"]
        values = {"K_Mx / (E t^3)": 1 / result["x_rad_per_Nm"] / (E * rail.t ** 3),
                  "K_Mz / (E t^3)": 1 / result["z_rad_per_Nm"] / (E * rail.t ** 3),
                  "K_Fy h^2 / (E t^3)": 1 / (result["y_m_per_N"] - d * d * result["z_rad_per_Nm"]) * rail.h ** 2 / (E * rail.t ** 3),
                  "d / bc": d / b,
                  "K_w / (E t^3 h^2)": 1 / result["rate_per_m_per_Nm2"] / (E * rail.t ** 3 * rail.h ** 2)}
        if rail.bend:
            print(name, {k: round(v, 4) for k, v in values.items()})
        else:
            sharp.append((name, ratios, values))
    for title in sharp[0][2]:
        fit("channel on the web: " + title, [(name, values[title], ratios) for name, ratios, values in sharp])


def junctions(cases, results):
    rows = []
    for name, result in results.items():
        rail = Rail(cases[name]["rail"] | {"length_m": 1.0}, 0.0)
        ratios = {"b/h": rail.b / rail.h, "t/h": rail.t / rail.h, "tp/t": cases[name]["plate_m"] / rail.t}
        rows.append((name, rail, ratios, result))
    for title, key, power, constant, powers in (
            ("C11 E h^3", "C11_rad_per_Nm", 3, 0.1009, (-0.348, -2.934, -0.879)),
            ("C12 E h^4", "C12_per_Nm2", 4, 0.2518, (-1.089, -2.378, -0.569)),
            ("C22 E h^5", "C22_per_Nm3", 5, 8.380, (-1.786, -1.376, -0.381))):
        values = [(name, result[key] * E * rail.h ** power, ratios) for name, rail, ratios, result in rows]
        off = [constant * np.prod([v ** p for v, p in zip(r.values(), powers)]) / v - 1 for _, v, r in values]
        print(f"\n{title}: the earlier formula is {100 * np.mean(off):+.1f} % in the mean, {100 * max(off, key=abs):+.1f} % at worst")
        fit(title, values)


def main():
    cases, results = read("joints")
    tubes(cases, results)
    channels(cases, results)
    junctions(*read("junctions"))


if __name__ == "__main__":
    main()
