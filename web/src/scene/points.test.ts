import { describe, expect, it } from "vitest";
import type { Units, Vector } from "../api/types";
import {
  asDrawn,
  coordinateText,
  editsTo,
  lineMove,
  type Point,
  pointsOf,
  pointsOfAll,
  snapped,
} from "./points";

const inch: Units = { metric: false, fraction_of_inch: 16, per_si: {} };
const metric: Units = { ...inch, metric: true };
const kInch = 0.0254;
const still = (path: string) => path;
const point: Point = {
  path: "/axles/front/links/upper/axle/at",
  body: "front",
  q: [-2 * kInch, 19 * kInch, 13.25 * kInch],
  axes: ["station", "offset", "height"],
  mirrored: false,
  holds: "point",
};

describe("a point of the build", () => {
  it("is found in the part that is drawn by it", () => {
    const end = (path: string) => ({ body: "frame", p: [0, 0, 0] as Vector, path });
    const bar = pointsOf({
      kind: "bar",
      name: "lower.right",
      path: "/x",
      label: "",
      a: end("/x/frame/at"),
      b: end("/x/axle/at"),
      radius: 0.02,
    });
    expect(bar.map((p) => [p.path, p.mirrored])).toEqual([
      ["/x/frame/at", true],
      ["/x/axle/at", true],
    ]);
  });

  it("is none where something else puts it", () => {
    const end = (path: string) => ({ body: "frame", p: [0, 0, 0] as Vector, path });
    const engine = pointsOf({
      kind: "case",
      path: "/drivetrain/segments/engine",
      label: "",
      a: end("/drivetrain/segments/engine/starts_at"),
      b: end(""),
      radius: 0.2,
      corners: null,
      moves: ["station", "height"],
    });
    expect(engine.map((p) => [p.path, p.holds])).toEqual([
      ["/drivetrain/segments/engine/starts_at", "point"],
      ["/drivetrain/segments/engine", "line"],
    ]);
    const mount = pointsOf({
      kind: "mount",
      name: "engine.right",
      path: "/drivetrain/mounts/engine",
      label: "",
      at: end("/drivetrain/mounts/engine/at"),
      axis: [0, 0, 1],
    });
    expect(mount.map((p) => [p.path, p.mirrored])).toEqual([
      ["/drivetrain/mounts/engine/at", true],
    ]);
  });

  it("is the middle of an axle's line, which has no offset", () => {
    const [line] = pointsOf({
      kind: "axle",
      path: "/axles/rear",
      label: "",
      body: "rear",
      a: [-3, 0.8, 0.4],
      b: [-3, -0.8, 0.4],
      radius: 0.045,
    });
    expect(line).toMatchObject({ path: "/axles/rear", body: "rear", q: [-3, 0, 0.4] });
    if (!line) throw new Error("An axle has no point.");
    expect(editsTo(line, [-3.01, 0.2, 0.42], metric, still)).toEqual([
      { path: "/axles/rear/station", value: "3010 mm" },
      { path: "/axles/rear/height", value: "420 mm" },
    ]);
  });

  it("is the hitch ball", () => {
    const ball = { body: "frame", p: [-4.4, 0, 0.53] as Vector, path: "/hitch/ball" };
    const [point] = pointsOf({ kind: "hitch", path: "/hitch", label: "", at: ball, radius: 0.025 });
    expect(point).toMatchObject({ path: "/hitch/ball", body: "frame", q: ball.p, mirrored: false });
  });

  it("is one where two pieces of a shaft meet", () => {
    const path = "/drivetrain/shafts/rear";
    const end = (key: string) => ({
      body: "frame",
      p: [0, 0, 0] as Vector,
      path: `${path}/${key}`,
    });
    const piece = (a: string, b: string) =>
      ({ kind: "shaft", path, label: "", a: end(a), b: end(b), radius: 0.04 }) as const;
    const pieces = [piece("start", "bearing/joint"), piece("bearing/joint", "end_joint")];
    expect(pointsOfAll(pieces).map((p) => p.path)).toEqual(
      ["start", "bearing/joint", "end_joint"].map((key) => `${path}/${key}`),
    );
  });

  it("is moved in the shop's coordinates: station aft, offset to the left", () => {
    const q: Vector = [point.q[0] - kInch, point.q[1], point.q[2] + kInch / 2];
    expect(editsTo(point, q, inch, still)).toEqual([
      { path: `${point.path}/station`, value: "3 in" },
      { path: `${point.path}/height`, value: "13 3/4 in" },
    ]);
  });

  it("moves its own way on the mirrored side", () => {
    const right: Point = { ...point, q: [point.q[0], -point.q[1], point.q[2]], mirrored: true };
    const outward: Vector = [right.q[0], right.q[1] - kInch, right.q[2]];
    expect(editsTo(right, outward, inch, still)).toEqual([
      { path: `${point.path}/offset`, value: "20 in" },
    ]);
  });

  it("holds to the sixteenth, or the millimetre", () => {
    expect(coordinateText(snapped(1.03 * kInch, inch), inch)).toBe("1 in");
    expect(coordinateText(snapped(-1.04 * kInch, inch), inch)).toBe("-1 1/16 in");
    expect(coordinateText(snapped(0.10049, metric), metric)).toBe("100 mm");
  });

  it("leaves alone what was not moved, also off the sixteenth", () => {
    const odd: Point = { ...point, q: [-0.0501, 0.3333, 0.4001] };
    const q: Vector = [-0.0501, 0.3333, 0.4501];
    expect(editsTo(odd, q, inch, still).map((e) => e.path)).toEqual([`${point.path}/height`]);
  });

  it("is moved as drawn while its body stands turned", () => {
    const R = [
      [0, -1, 0],
      [1, 0, 0],
      [0, 0, 1],
    ] as [Vector, Vector, Vector];
    const d = asDrawn({ front: { R, p: [0, 0, 0] } }, "front", [0, 1, 0]);
    expect(d).toEqual([1, 0, 0]);
  });
});

describe("a line of cases", () => {
  const line: Point = { ...point, path: "/drivetrain/segments/engine", holds: "line" };

  it("is moved by what the hand has moved, to the sixteenth", () => {
    const { path } = line;
    expect(lineMove(line, [-1.03 * kInch, 0.5 * kInch, -2 * kInch], inch)).toEqual({
      kind: "move_cases",
      path,
      rearward: "1 in",
      left: "1/2 in",
      up: "-2 in",
    });
    expect(lineMove(line, [0, 0, 0.0012], metric)).toEqual({
      kind: "move_cases",
      path,
      up: "1 mm",
    });
    expect(lineMove(line, [0.0001, 0, 0], inch)).toBeNull();
  });

  it("goes only where it can go", () => {
    const pair: Point = { ...line, axes: ["station", "height"] };
    expect(lineMove(pair, [0, kInch, 0], inch)).toBeNull();
  });
});
