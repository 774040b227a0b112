import { join } from "../api/pointer";
import type { View } from "../api/store";
import type { Part, Scene, Vector } from "../api/types";
import { boundsOf, outlineOf } from "./outline";
import type { Face, Spot } from "./project";

/** A rectangle of the drawing, metres. */
export interface Bounds {
  u0: number;
  v0: number;
  u1: number;
  v1: number;
}

/** How the drawing lies on the screen: pixels a metre, and the spot at the screen's corner. */
export interface Lens {
  scale: number;
  u: number;
  v: number;
}

export interface Size {
  width: number;
  height: number;
}

/** Where each view lies on the sheet, in third-angle alignment with the side. */
export interface Arrangement {
  offsets: Record<Face, Spot>;
  bounds: Record<Face, Bounds>;
}

const kGap_m = 0.35;
const kAsDrawn = { face: "side", bodies: undefined, steer_rad: 0 } as const;

/** The faces that a way of looking shows. */
export function facesOf(view: View): Face[] {
  if (view === "top") return ["top", "side"];
  if (view === "end") return ["end", "side"];
  return ["side"];
}

export function arrange(scene: Scene): Arrangement {
  const { front_x, rear_x, top_z } = scene.extent;
  const half = Math.max(0.6, ...scene.parts.map(halfWidthOf));
  const told = { u0: -front_x, v0: -top_z, u1: -rear_x, v1: -scene.floor_z };
  // A tyre drawn deeper than the floor is no reason to see more of what is below it.
  const drawn = scene.parts.map(boundsAsDrawn).filter((b) => b !== null);
  const side = { ...union([told, ...drawn]), v1: told.v1 };
  const top = side.v0 - kGap_m - half;
  const end = side.u0 - kGap_m - half;
  return {
    offsets: { side: { u: 0, v: 0 }, top: { u: 0, v: top }, end: { u: end, v: 0 } },
    bounds: {
      side,
      top: { ...side, v0: top - half, v1: top + half },
      end: { ...side, u0: end - half, u1: end + half },
    },
  };
}

const kept = new WeakMap<Part, Bounds | null>();

/** The rectangle of a part from the side, kept for as long as the part is the very same object. */
function boundsAsDrawn(part: Part): Bounds | null {
  const before = kept.get(part);
  if (before !== undefined) return before;
  const bounds = boundsOf([outlineOf(part, 0, kAsDrawn)]);
  kept.set(part, bounds);
  return bounds;
}

function halfWidthOf(part: Part): number {
  const across = (p: Vector) => Math.abs(p[1]);
  switch (part.kind) {
    case "tyre":
      return across(part.centre) + part.width / 2;
    case "box":
      return across(part.centre) + part.size[1] / 2;
    case "rail":
    case "plate":
      return Math.max(0, ...part.profile.map(({ p, width }) => across(p) + width / 2));
    case "crossmember":
      return Math.max(0, ...part.profile.map(({ p }) => across(p)));
    case "axle":
      return Math.max(across(part.a), across(part.b));
    default:
      return 0;
  }
}

export function union(bounds: Bounds[]): Bounds {
  return {
    u0: Math.min(...bounds.map((b) => b.u0)),
    v0: Math.min(...bounds.map((b) => b.v0)),
    u1: Math.max(...bounds.map((b) => b.u1)),
    v1: Math.max(...bounds.map((b) => b.v1)),
  };
}

/** The lens that shows `bounds` with these margins in pixels. */
export function lensFor(
  bounds: Bounds,
  size: Size,
  margin: { x: number; top: number; bottom: number },
): Lens {
  const width = Math.max(0.1, bounds.u1 - bounds.u0);
  const height = Math.max(0.1, bounds.v1 - bounds.v0);
  const scale = Math.max(
    5,
    Math.min(
      (size.width - 2 * margin.x) / width,
      (size.height - margin.top - margin.bottom) / height,
    ),
  );
  const spare = size.height - margin.top - margin.bottom - height * scale;
  return {
    scale,
    u: bounds.u0 - (size.width / scale - width) / 2,
    v: bounds.v0 - (margin.top + Math.max(0, spare)) / scale,
  };
}

export interface Dot {
  x: number;
  y: number;
}

export function onScreen(lens: Lens, spot: Spot): Dot {
  return { x: (spot.u - lens.u) * lens.scale, y: (spot.v - lens.v) * lens.scale };
}

export function onSheet(lens: Lens, dot: Dot): Spot {
  return { u: lens.u + dot.x / lens.scale, v: lens.v + dot.y / lens.scale };
}

/** The lens after zooming by `factor` about a place on the screen that stays where it is. */
export function zoom(lens: Lens, about: Dot, factor: number): Lens {
  const scale = Math.min(4000, Math.max(20, lens.scale * factor));
  const still = onSheet(lens, about);
  return { scale, u: still.u - about.x / scale, v: still.v - about.y / scale };
}

export function pan(lens: Lens, dx: number, dy: number): Lens {
  return { ...lens, u: lens.u - dx / lens.scale, v: lens.v - dy / lens.scale };
}

/** Of several balance points only that of the load state shown. */
export function partsShown(scene: Scene, state: string | null): Part[] {
  return scene.parts.filter(
    (p) => p.kind !== "cg" || state === null || p.path === join("/load_states", state),
  );
}
