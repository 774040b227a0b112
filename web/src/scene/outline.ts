import { isWithin, join } from "../api/pointer";
import type { Part, Vector } from "../api/types";
import { type Drawn, drawPart, type Posed } from "./draw-part";
import type { Bounds } from "./frame";
import { add, type Bodies, carry, type Face, poseOf, type Spot } from "./project";

export interface Outline extends Drawn {
  part: Part;
  /** Unlike any other in the scene. */
  key: string;
  label: string;
}

/** Drawn from the large to the small, so that the small can be seen and picked; from the side the
 * crossmembers over the rails that hide them. */
const kOrder: Part["kind"][] = [
  "box",
  "cylinder",
  "ball",
  "crossmember",
  "rail",
  "plate",
  "hole",
  "case",
  "tyre",
  "axle",
  "shaft",
  "leaf",
  "coil",
  "stop",
  "shock",
  "arm",
  "bar",
  "mount",
  "gap",
  "hitch",
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

/** Whether a part is one of an axle or its tyres. */
export function belongsTo({ part }: Outline, axle: string): boolean {
  if (part.kind === "tyre") return part.body === axle;
  return isWithin(part.path, join("/axles", axle));
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
    case "case":
    case "shaft":
    case "gap":
    case "coil":
    case "shock":
    case "stop":
      return [part.a, part.b];
    case "mount":
    case "hitch":
      return [part.at];
    default:
      return [{ body: part.body, p: part.centre }];
  }
}
