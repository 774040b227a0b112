import { describe, expect, it } from "vitest";
import { answer, makeState } from "../../mock/shop.mjs";
import type { BodyPose, Finding, Part, Scene, Units, Vector } from "../api/types";
import { spread } from "./annotations";
import { arrange, lensFor, onScreen, onSheet, pan, union, zoom } from "./frame";
import { boundsOf, inDrawingOrder, middleInSpace, outlineOf } from "./outline";
import { holdAt, pick } from "./pick";
import { type Place, partFinder, placesOf } from "./places";
import { carry, hullOf, spotOf, turnUpright } from "./project";
import { ticksFor } from "./ticks";

const scene = (
  answer(makeState(), "GET", "/api/builds/hollow_creek/scene", null)[1] as { scene: Scene }
).scene;
const still = { face: "side" as const, bodies: undefined, steer_rad: 0 };
const outlines = inDrawingOrder(scene.parts).map((p, i) => outlineOf(p, i, still));
const partAt = (path: string) => scene.parts.find((p) => p.path === path) as Part;
const inch: Units = {
  metric: false,
  fraction_of_inch: 16,
  per_si: { length: { unit: "in", factor: 1 / 0.0254 } },
};

describe("marks", () => {
  const place: Place = { path: "/axles", findings: [], verdict: "look", spot: { u: 0, v: 0 } };
  const at = (x: number) => ({ place, x, y: 120 });
  it("find room inside the picture, apart from each other", () => {
    const shown = spread([760, 765, 770, 775, 780, 785, 790, 795].map(at), 800);
    for (const a of shown) {
      expect(a.markX).toBeGreaterThan(20);
      expect(a.markX).toBeLessThan(780);
      expect(a.markY).toBeGreaterThanOrEqual(18);
      const covering = shown.filter(
        (b) => Math.abs(a.markX - b.markX) < 44 && Math.abs(a.markY - b.markY) < 44,
      );
      expect(covering).toEqual([a]);
    }
  });
  it("stay with what is out of the picture", () => {
    expect(spread([at(900)], 800)[0]?.markX).toBe(900);
  });
});

describe("holes", () => {
  const hole: Part = {
    ...{ kind: "hole", path: "/frame/holes/drain", label: "Drain", body: "frame" },
    ...{
      centre: [-1, 0.4, 0.6],
      axis: [0, 1, 0],
      radius: 0.01,
      thickness: 0.004,
      fate: "comes_out",
    },
  };
  const extentOf = (face: "side" | "top") => {
    const [stroke] = outlineOf(hole, 0, { ...still, face }).strokes;
    if (stroke?.form !== "area") throw new Error("not an area");
    expect(stroke.look).toBe("hole comes-out");
    const range = (values: number[]) => Math.max(...values) - Math.min(...values);
    return [range(stroke.spots.map((s) => s.u)), range(stroke.spots.map((s) => s.v))];
  };
  it("are round where they are looked through, as wide as their wall from above", () => {
    const [u, v] = extentOf("side");
    expect(u).toBeCloseTo(0.02, 4);
    expect(v).toBeCloseTo(0.02, 4);
    expect(extentOf("top")[1]).toBeCloseTo(0.004, 6);
  });
  it("stand on the walls that they are in", () => {
    const kinds = inDrawingOrder([hole, ...scene.parts]).map((p) => p.kind);
    expect(kinds.indexOf("hole")).toBeGreaterThan(kinds.lastIndexOf("rail"));
  });
});

describe("the views", () => {
  const p: Vector = [-1, 0.5, 0.8];
  it("have the front to the left and are in third-angle alignment", () => {
    expect(spotOf("side", p)).toEqual({ u: 1, v: -0.8 });
    expect(spotOf("top", p)).toEqual({ u: 1, v: 0.5 });
    expect(spotOf("end", p)).toEqual({ u: 0.5, v: -0.8 });
  });
  it("do not cover each other", () => {
    const { bounds } = arrange(scene);
    expect(bounds.top.v1).toBeLessThan(bounds.side.v0);
    expect(bounds.end.u1).toBeLessThan(bounds.side.u0);
  });
  it("carry a point along with its body", () => {
    const quarter: BodyPose = {
      R: [
        [0, -1, 0],
        [1, 0, 0],
        [0, 0, 1],
      ],
      p: [1, 0, 0.1],
    };
    expect(carry(quarter, [1, 0, 0])).toEqual([1, 1, 0.1]);
    const turned = turnUpright([0, 1, 0], Math.PI / 2);
    expect(turned[0]).toBeCloseTo(-1);
  });
  it("outline a set of spots", () => {
    const square = [0, 1].flatMap((u) => [0, 1].map((v) => ({ u, v })));
    expect(hullOf([...square, { u: 0.5, v: 0.5 }])).toHaveLength(4);
  });
});

describe("the lens", () => {
  const size = { width: 800, height: 300 };
  const margin = { x: 20, top: 10, bottom: 50 };
  const lens = lensFor(arrange(scene).bounds.side, size, margin);
  it("shows all of the side, the floor above the lower margin", () => {
    const { u0, u1, v0 } = arrange(scene).bounds.side;
    expect(onScreen(lens, { u: u0, v: 0 }).x).toBeGreaterThanOrEqual(20 - 1e-9);
    expect(onScreen(lens, { u: u1, v: 0 }).x).toBeLessThanOrEqual(780 + 1e-9);
    expect(onScreen(lens, { u: 0, v: 0 }).y).toBeCloseTo(250);
    expect(onScreen(lens, { u: 0, v: v0 }).y).toBeGreaterThanOrEqual(10 - 1e-9);
  });
  it("zooms about a place that stays", () => {
    const about = { x: 300, y: 120 };
    const still = onSheet(lens, about);
    const after = onScreen(zoom(lens, about, 2), still);
    expect(after.x).toBeCloseTo(about.x);
    expect(after.y).toBeCloseTo(about.y);
  });
  it("follows a finger", () => {
    const before = onScreen(lens, { u: 1, v: 0 });
    expect(onScreen(pan(lens, 30, -5), { u: 1, v: 0 }).x).toBeCloseTo(before.x + 30);
  });
  it("takes several views in", () => {
    const { bounds } = arrange(scene);
    expect(union([bounds.side, bounds.top]).v0).toBe(bounds.top.v0);
  });
});

describe("a tap", () => {
  it("finds the link in front of a tyre, and the end that was hit", () => {
    const upper = partAt("/axles/front/links/upper");
    if (upper.kind !== "bar") throw new Error("The upper link is a bar.");
    const hit = pick(outlines, spotOf("side", upper.b.p), 0.05);
    expect(hit?.outline.part.path).toBe("/axles/front/links/upper");
    expect(hit?.end).toBe("/axles/front/links/upper/axle/at");
  });
  it("finds a tyre from within it", () => {
    const hit = pick(outlines, { u: 2.921, v: -0.06 }, 0.05);
    expect(hit?.outline.part.kind).toBe("tyre");
  });
  it("takes hold of the wheel behind the spring", () => {
    expect(holdAt(outlines, { u: 0, v: -0.7 })?.part.kind).toBe("tyre");
    expect(holdAt(outlines, { u: 1.5, v: -0.4 })).toBeNull();
  });
  it("finds nothing in the air", () => expect(pick(outlines, { u: 3, v: -3 }, 0.05)).toBeNull());
});

describe("a finding", () => {
  const about = (id: string, path: string, verdict: Finding["verdict"]): Finding => ({
    ...{ id, path, verdict, work: "axles", subject: "", sentence: "", value: null, limit: null },
    ...{ basis: "", advice: "", assumption: "", working: [] },
  });
  it("points at the very part", () => {
    const partFor = partFinder(outlines);
    expect(partFor("/axles/front/dampers/shock/open_length")?.part.kind).toBe("shock");
    expect(partFor("/axles/front")?.part.kind).toBe("axle");
    expect(partFor("/limits/side_slope")).toBeNull();
  });
  it("shares its place with others there, under the worst mark", () => {
    const places = placesOf(outlines, [
      about("a", "/axles/front/links/upper", "look"),
      about("b", "/axles/front/links/upper/axle", "stop"),
      about("c", "/limits/side_slope", "stop"),
    ]);
    expect(places).toHaveLength(1);
    expect(places[0]?.verdict).toBe("stop");
    expect(places[0]?.findings).toHaveLength(2);
  });
});

describe("every part", () => {
  it.each(["side", "top", "end"] as const)("is drawn in the %s view", (face) => {
    for (const [i, part] of scene.parts.entries()) {
      const outline = outlineOf(part, i, { ...still, face });
      const bounds = boundsOf([outline]);
      expect(outline.strokes.length, outline.key).toBeGreaterThan(0);
      expect(
        Object.values(bounds ?? { none: Number.NaN }).every(Number.isFinite),
        outline.key,
      ).toBe(true);
    }
  });
  it("has a middle in space", () => {
    for (const part of scene.parts)
      expect(middleInSpace(part, undefined).every(Number.isFinite)).toBe(true);
  });
});

describe("a shaft", () => {
  it("goes with its axle at one end and with the frame at the other", () => {
    const shaft = partAt("/drivetrain/shafts/rear");
    const R: BodyPose["R"] = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    const spotsIn = (bodies: Record<string, BodyPose> | undefined) =>
      outlineOf(shaft, 0, { ...still, bodies }).ends.map((e) => e.spot.v);
    const [a = 0, b = 0] = spotsIn(undefined);
    const [moved_a = 0, moved_b = 0] = spotsIn({ rear: { R, p: [0, 0, 0.1] } });
    expect(moved_a).toBeCloseTo(a);
    expect(moved_b).toBeCloseTo(b - 0.1);
  });
  it("is drawn over the cases, and both over the rails", () => {
    const order = inDrawingOrder(scene.parts).map((p) => p.kind);
    expect(order.lastIndexOf("case")).toBeLessThan(order.indexOf("shaft"));
    expect(order.lastIndexOf("rail")).toBeLessThan(order.indexOf("case"));
  });
});

describe("station ticks", () => {
  it("are labelled in feet, as dense as there is room", () => {
    const wide = ticksFor(0, 3, 200, inch).filter((t) => t.label);
    expect(wide.map((t) => t.label).slice(0, 3)).toEqual(["0′", "1′", "2′"]);
    const close = ticksFor(0, 0.2, 3000, inch).filter((t) => t.label);
    expect(close.map((t) => t.label).slice(0, 3)).toEqual(["0′", "1″", "2″"]);
  });
});
