import type { EndPoint, Part, Path, Vector } from "../api/types";
import type { Bounds } from "./frame";
import { pointsOf } from "./points";
import {
  add,
  type Bodies,
  carry,
  type Face,
  hullOf,
  poseOf,
  type Spot,
  spotOf,
  squareTo,
  turn,
  turnUpright,
} from "./project";

/** What is drawn of one part in one view. Lengths in metres on the drawing. */
export type Stroke =
  | { form: "area"; spots: Spot[]; look: string }
  | { form: "line"; spots: Spot[]; look: string }
  /** A line as wide as the thing is: drawn as its two edges. */
  | { form: "band"; spots: Spot[]; width: number; look: string; butt: boolean }
  | { form: "dot"; spot: Spot; radius: number; look: string };

export interface Outline {
  part: Part;
  /** Unlike any other in the scene. */
  key: string;
  label: string;
  strokes: Stroke[];
  /** Points that can be picked by themselves. */
  ends: { path: Path; spot: Spot; at: Vector }[];
}

const kRoundness = 60;
/** Drawn from the large to the small, so that the small can be seen and picked; from the side the
 * crossmembers over the rails that hide them. */
const kOrder: Part["kind"][] = [
  "box",
  "cylinder",
  "ball",
  "crossmember",
  "rail",
  "plate",
  "tyre",
  "axle",
  "leaf",
  "coil",
  "stop",
  "shock",
  "arm",
  "bar",
  "cg",
];

export function inDrawingOrder(parts: readonly Part[], face: Face = "side"): Part[] {
  const rankOf = ({ kind }: Part) =>
    kOrder.indexOf(face === "side" && kind === "crossmember" ? "plate" : kind);
  return [...parts].sort((a, b) => rankOf(a) - rankOf(b));
}

export function keyOf(part: Part, index: number): string {
  return `${part.kind}:${part.path}:${part.name ?? ""}:${index}`;
}

/** What the shop calls it, and which side's it is. */
export function labelOf(part: Part): string {
  const side = /(?:^|\.)(left|right)$/.exec(part.name ?? "")?.[1];
  const end = part.kind === "tyre" ? ` ${part.body}` : "";
  return side && !part.label.toLowerCase().includes(side)
    ? `${part.label},${end} ${side}`
    : part.label;
}

interface Posed {
  face: Face;
  bodies: Bodies | undefined;
  steer_rad: number;
}

export function outlineOf(part: Part, index: number, posed: Posed): Outline {
  const { strokes, ends } = drawPart(part, posed);
  return { part, key: keyOf(part, index), label: labelOf(part), strokes, ends };
}

const kept = new WeakMap<Part, Partial<Record<Face, { outline: Outline; posed: Posed }>>>();

/** The same, kept for as long as the part and its pose are the very same objects. */
export function outlineKept(part: Part, index: number, posed: Posed): Outline {
  const byFace = kept.get(part) ?? {};
  const before = byFace[posed.face];
  const isSame =
    before?.posed.bodies === posed.bodies &&
    before?.posed.steer_rad === posed.steer_rad &&
    before.outline.key === keyOf(part, index);
  if (before && isSame) return before.outline;
  const outline = outlineOf(part, index, posed);
  kept.set(part, { ...byFace, [posed.face]: { outline, posed } });
  return outline;
}

type FramePart = Extract<Part, { profile: unknown }>;

type Drawn = Pick<Outline, "strokes" | "ends">;

function drawPart(part: Part, posed: Posed): Drawn {
  const { face, bodies } = posed;
  const spot = (p: Vector) => spotOf(face, p);
  const end = (e: EndPoint) => carry(poseOf(bodies, e.body), e.p);
  const only = (...strokes: Stroke[]): Drawn => ({ strokes, ends: [] });
  const given = pointsOf(part).map(({ path, body, q }) => {
    const at = carry(poseOf(bodies, body), q);
    return { path, spot: spot(at), at };
  });

  switch (part.kind) {
    case "rail":
    case "plate":
    case "crossmember":
      return { strokes: [drawFramePart(part, posed)], ends: given };
    case "bar": {
      const spots = [spot(end(part.a)), spot(end(part.b))];
      return {
        strokes: [
          { form: "band", spots, width: 2 * part.radius, look: "bar", butt: false },
          ...spots.map<Stroke>((s) => ({
            form: "dot",
            spot: s,
            radius: part.radius * 0.5,
            look: "eye",
          })),
        ],
        ends: given,
      };
    }
    case "arm": {
      const apex = spot(end(part.apex));
      const feet = part.feet.map((f) => spot(end(f)));
      return {
        strokes: [
          ...feet.map<Stroke>((f) => ({
            form: "band",
            spots: [f, apex],
            width: 2 * part.radius,
            look: "bar",
            butt: false,
          })),
          ...[apex, ...feet].map<Stroke>((s) => ({
            form: "dot",
            spot: s,
            radius: part.radius * 0.5,
            look: "eye",
          })),
        ],
        ends: given,
      };
    }
    case "coil": {
      const a = end(part.a);
      const b = end(part.b);
      return {
        strokes: [{ form: "line", spots: windings(spot(a), spot(b), part.radius), look: "coil" }],
        ends: given,
      };
    }
    case "shock": {
      const a = spot(end(part.a));
      const b = spot(end(part.b));
      const middle = between(a, b, 0.52);
      return {
        strokes: [
          { form: "band", spots: [middle, a], width: 1.1 * part.radius, look: "shock", butt: true },
          {
            form: "band",
            spots: [b, between(a, b, 0.42)],
            width: 2 * part.radius,
            look: "shock",
            butt: true,
          },
        ],
        ends: given,
      };
    }
    case "stop": {
      const a = spot(end(part.a));
      const b = spot(end(part.b));
      return {
        strokes: [
          {
            form: "band",
            spots: [a, between(a, b, 0.45)],
            width: 2 * part.radius,
            look: "stop",
            butt: true,
          },
        ],
        ends: given,
      };
    }
    case "leaf": {
      const [a, seat, b] = [part.a, part.seat, part.b].map((e) => spot(end(e))) as [
        Spot,
        Spot,
        Spot,
      ];
      return {
        strokes: [{ form: "line", spots: bow(a, seat, b), look: "leaf" }],
        ends: given,
      };
    }
    case "axle": {
      const pose = poseOf(bodies, part.body);
      const [a, b] = [carry(pose, part.a), carry(pose, part.b)];
      return only({ form: "area", spots: roundBar(a, b, part.radius, spot), look: "axle" });
    }
    case "tyre":
      return only(...drawTyre(part, posed));
    case "box": {
      const pose = poseOf(bodies, part.body);
      const corners = [-0.5, 0.5].flatMap((i) =>
        [-0.5, 0.5].flatMap((j) =>
          [-0.5, 0.5].map((k) =>
            carry(pose, add(part.centre, [i * part.size[0], j * part.size[1], k * part.size[2]])),
          ),
        ),
      );
      return {
        strokes: [{ form: "area", spots: hullOf(corners.map(spot)), look: "mass" }],
        ends: given,
      };
    }
    case "cylinder": {
      const pose = poseOf(bodies, part.body);
      const a = carry(pose, add(part.centre, part.axis, -part.length / 2));
      const b = carry(pose, add(part.centre, part.axis, part.length / 2));
      return {
        strokes: [{ form: "area", spots: roundBar(a, b, part.radius, spot), look: "mass" }],
        ends: given,
      };
    }
    case "ball":
      return {
        strokes: given.map((g) => ({ form: "dot", spot: g.spot, radius: 0.03, look: "mass" })),
        ends: given,
      };
    case "cg":
      return only({
        form: "dot",
        spot: spot(carry(poseOf(bodies, part.body), part.centre)),
        radius: 0,
        look: "cg",
      });
  }
}

function drawTyre(part: Extract<Part, { kind: "tyre" }>, posed: Posed): Stroke[] {
  const pose = poseOf(posed.bodies, part.body);
  const centre = carry(pose, part.centre);
  const straight = turn(pose, part.axis);
  const axis = part.steered ? turnUpright(straight, posed.steer_rad) : straight;
  const spot = (p: Vector) => spotOf(posed.face, p);
  const [a, b] = [add(centre, axis, -part.width / 2), add(centre, axis, part.width / 2)];
  const strokes: Stroke[] = [
    { form: "area", spots: roundBar(a, b, part.radius, spot), look: "tyre" },
  ];
  if (posed.face === "side") {
    // The rim's size isn't told: a circle at six tenths only shows where the wheel is.
    const near = part.centre[1] >= 0 ? b : a;
    strokes.push({
      form: "area",
      spots: ring(near, axis, part.radius * 0.6).map(spot),
      look: "rim",
    });
  }
  return strokes;
}

function ring(centre: Vector, axis: Vector, radius: number): Vector[] {
  const [e, f] = squareTo(axis);
  return Array.from({ length: kRoundness }, (_, i) => {
    const angle = (2 * Math.PI * i) / kRoundness;
    return add(add(centre, e, radius * Math.cos(angle)), f, radius * Math.sin(angle));
  });
}

function roundBar(a: Vector, b: Vector, radius: number, spot: (p: Vector) => Spot): Spot[] {
  const axis = unitBetween(a, b);
  return hullOf([...ring(a, axis, radius), ...ring(b, axis, radius)].map(spot));
}

function unitBetween(a: Vector, b: Vector): Vector {
  const d = add(b, a, -1);
  const size = Math.hypot(d[0], d[1], d[2]) || 1;
  return [d[0] / size, d[1] / size, d[2] / size];
}

function between(a: Spot, b: Spot, share: number): Spot {
  return { u: a.u + (b.u - a.u) * share, v: a.v + (b.v - a.v) * share };
}

function windings(a: Spot, b: Spot, radius: number): Spot[] {
  const length = Math.hypot(b.u - a.u, b.v - a.v);
  if (length < 1e-6) return [a, b];
  const n = { u: -(b.v - a.v) / length, v: (b.u - a.u) / length };
  const turns = 7;
  const spots: Spot[] = [];
  const put = (share: number, side: number) => {
    const s = between(a, b, share);
    spots.push({ u: s.u + side * radius * n.u, v: s.v + side * radius * n.v });
  };
  put(0, -1);
  put(0, 1);
  for (let i = 0; i < turns; i++) {
    put((i + 0.5) / turns, -1);
    put((i + 1) / turns, 1);
  }
  put(1, -1);
  return spots;
}

/** A smooth bow through eye, seat and eye. */
function bow(a: Spot, seat: Spot, b: Spot): Spot[] {
  const share = Math.min(
    0.9,
    Math.max(
      0.1,
      Math.hypot(seat.u - a.u, seat.v - a.v) /
        (Math.hypot(seat.u - a.u, seat.v - a.v) + Math.hypot(b.u - seat.u, b.v - seat.v) || 1),
    ),
  );
  const straight = between(a, b, share);
  const steps = 16;
  return Array.from({ length: steps + 1 }, (_, i) => {
    const t = i / steps;
    const base = between(a, b, t);
    const rise = t < share ? t / share : (1 - t) / (1 - share);
    const lift = rise * (2 - rise);
    return { u: base.u + (seat.u - straight.u) * lift, v: base.v + (seat.v - straight.v) * lift };
  });
}

/** The edge of a cross-section of width and depth 1 about its middle, counterclockwise. */
export function edgeOf(round: boolean): [number, number][] {
  const count = round ? kRoundness : 4;
  const [start, radius] = round ? [0, 0.5] : [-(3 * Math.PI) / 4, Math.SQRT1_2];
  return Array.from({ length: count }, (_, i) => {
    const angle = start + (2 * Math.PI * i) / count;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

/** A rail, plate or crossmember: the hull of its cross-sections seen along itself, else what lies
 * between its two edges. */
function drawFramePart(part: FramePart, { face, bodies }: Posed): Stroke {
  const pose = poseOf(bodies, part.body);
  const isCross = part.kind === "crossmember";
  const spot = (p: Vector) => spotOf(face, carry(pose, p));
  const corner = (one: FramePart["profile"][number], across: number, up: number) => {
    const w = across * one.width;
    return spot(add(one.p, isCross ? [w, 0, up * one.depth] : [0, w, up * one.depth]));
  };
  const look = part.fate === "stays" ? "rail" : `rail ${part.fate.replace("_", "-")}`;
  if (face === (isCross ? "side" : "end")) {
    const corners = part.profile.flatMap((one) =>
      edgeOf(one.round).map(([i, j]) => corner(one, i, j)),
    );
    return { form: "area", spots: hullOf(corners), look };
  }
  const edge = (half: number) =>
    part.profile.map((one) => (face === "top" ? corner(one, half, 0) : corner(one, 0, half)));
  return { form: "area", spots: [...edge(0.5), ...edge(-0.5).reverse()], look };
}

function spotsOf(outline: Outline): Spot[] {
  return outline.strokes.flatMap((s) => (s.form === "dot" ? [s.spot] : s.spots));
}

/** The rectangle that holds what is drawn of these; null: nothing is. */
export function boundsOf(outlines: Outline[]): Bounds | null {
  const spots = outlines.flatMap(spotsOf);
  if (spots.length === 0) return null;
  const u = spots.map((s) => s.u);
  const v = spots.map((s) => s.v);
  return { u0: Math.min(...u), v0: Math.min(...v), u1: Math.max(...u), v1: Math.max(...v) };
}

/** The middle of what is drawn of a part; where its mark stands. */
export function middleOf(outline: Outline): Spot {
  const spots = spotsOf(outline);
  const n = Math.max(1, spots.length);
  return {
    u: spots.reduce((sum, s) => sum + s.u, 0) / n,
    v: spots.reduce((sum, s) => sum + s.v, 0) / n,
  };
}

/** The middle of a part in space, as its bodies stand. */
export function middleInSpace(part: Part, bodies: Bodies | undefined): Vector {
  const points = framePoints(part).map(({ body, p }) => carry(poseOf(bodies, body), p));
  return points.reduce<Vector>((sum, p) => add(sum, p, 1 / points.length), [0, 0, 0]);
}

function framePoints(part: Part): { body: string; p: Vector }[] {
  switch (part.kind) {
    case "rail":
    case "plate":
    case "crossmember":
      return part.profile.map(({ p }) => ({ body: part.body, p }));
    case "arm":
      return [part.apex, ...part.feet];
    case "leaf":
      return [part.a, part.seat, part.b];
    case "axle":
      return [part.a, part.b].map((p) => ({ body: part.body, p }));
    case "bar":
    case "coil":
    case "shock":
    case "stop":
      return [part.a, part.b];
    default:
      return [{ body: part.body, p: part.centre }];
  }
}
