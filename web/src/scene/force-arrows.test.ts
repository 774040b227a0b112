import { describe, expect, it } from "vitest";
import { answer, makeState } from "../../mock/shop.mjs";
import type { DriveLoad, Report, Vector } from "../api/types";
import { arrowsOf, placeArrows } from "./force-arrows";
import { spotOf } from "./project";

const { report } = answer(makeState(), "GET", "/api/builds/hollow_creek/report", null)[1] as {
  report: Report;
};
const load = report.drivetrain?.loads.find((l) => l.id === "first") as DriveLoad;
const from = (face: "side" | "top") => (p: Vector) => {
  const { u, v } = spotOf(face, p);
  return { x: 400 + 150 * u, y: 300 + 150 * v };
};

describe("the arrows of a load", () => {
  it("start at the mounts, to one scale", () => {
    const arrows = arrowsOf(load, undefined);
    const long = ({ from: a, to: b }: { from: Vector; to: Vector }) =>
      Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
    expect(arrows.map((a) => a.from)).toEqual(load.mounts.map((m) => m.p));
    const size = (m: DriveLoad["mounts"][number]) => Math.hypot(...m.f);
    const scales = arrows.map((a, i) => long(a) / size(load.mounts[i] as never));
    for (const scale of scales) expect(scale).toBeCloseTo(scales[0] as number);
    expect(Math.max(...arrows.map(long))).toBeCloseTo(0.42);
    expect(arrows[0]?.text).toBe("837 lbf left");
  });
  it("go with the frame", () => {
    const R = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as [Vector, Vector, Vector];
    const moved = arrowsOf(load, { frame: { R, p: [0, 0, 0.1] } });
    expect(moved[2]?.from[2]).toBeCloseTo((load.mounts[2]?.p[2] ?? 0) + 0.1);
  });
  it("have their texts apart from each other and from the marks", () => {
    const arrows = arrowsOf(load, undefined);
    const tip = from("side")(arrows[0]?.to as Vector);
    const placed = placeArrows(arrows, from("side"), [{ x: tip.x, y: tip.y - 8 }]);
    const labels = placed.flatMap((p) => (p.label ? [p.label] : []));
    expect(labels).toHaveLength(3);
    expect(
      Math.hypot((labels[0]?.x ?? 0) - tip.x, (labels[0]?.y ?? 0) - tip.y + 8),
    ).toBeGreaterThan(20);
    for (const [i, a] of labels.entries())
      for (const b of labels.slice(i + 1))
        expect(Math.abs(a.x - b.x) > 80 || Math.abs(a.y - b.y) >= 16).toBe(true);
  });
  it("have none where they are seen from their end", () => {
    const up = { ...load, mounts: load.mounts.map((m) => ({ ...m, f: [0, 0, 900] as never })) };
    const placed = placeArrows(arrowsOf(up, undefined), from("top"));
    expect(placed.map((p) => p.label)).toEqual([null, null, null]);
  });
  it("are none without a force", () => {
    expect(arrowsOf({ ...load, mounts: [] }, undefined)).toEqual([]);
  });
});
