import type { Path } from "../api/types";
import type { Stroke } from "./draw-part";
import type { Outline } from "./outline";
import type { Spot } from "./project";

export interface Picked {
  outline: Outline;
  end: Path | null;
}

function toSegment(p: Spot, a: Spot, b: Spot): number {
  const [du, dv] = [b.u - a.u, b.v - a.v];
  const length2 = du * du + dv * dv;
  const t = length2 > 0 ? ((p.u - a.u) * du + (p.v - a.v) * dv) / length2 : 0;
  const share = Math.min(1, Math.max(0, t));
  return Math.hypot(p.u - a.u - share * du, p.v - a.v - share * dv);
}

function isInside(p: Spot, spots: Spot[]): boolean {
  let inside = false;
  for (let i = 0, j = spots.length - 1; i < spots.length; j = i++) {
    const a = spots[i] as Spot;
    const b = spots[j] as Spot;
    if (a.v > p.v !== b.v > p.v && p.u < ((b.u - a.u) * (p.v - a.v)) / (b.v - a.v) + a.u) {
      inside = !inside;
    }
  }
  return inside;
}

function toLine(p: Spot, spots: Spot[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < spots.length; i++) {
    least = Math.min(least, toSegment(p, spots[i - 1] as Spot, spots[i] as Spot));
  }
  return least;
}

/** How far a tap missed what is drawn; inside an area counts as a near miss, so that a link in front
 * of a tyre can still be hit. */
function missOf(p: Spot, stroke: Stroke, reach: number): number {
  switch (stroke.form) {
    case "dot":
      return Math.max(0, Math.hypot(p.u - stroke.spot.u, p.v - stroke.spot.v) - stroke.radius);
    case "line":
      return toLine(p, stroke.spots);
    case "band":
      return Math.max(0, toLine(p, stroke.spots) - stroke.width / 2);
    case "area": {
      const closed = [...stroke.spots, stroke.spots[0] as Spot];
      const edge = toLine(p, closed);
      return isInside(p, stroke.spots) ? Math.min(edge, 0.7 * reach) : edge;
    }
  }
}

/** The wheel or axle that a finger at `p` takes hold of, whatever else is drawn on it. */
export function holdAt(outlines: Outline[], p: Spot): Outline | null {
  const held = outlines.filter(
    ({ part, strokes }) =>
      (part.kind === "tyre" || part.kind === "axle") &&
      strokes.some((s) => s.form === "area" && isInside(p, s.spots)),
  );
  return held.find((o) => o.part.kind === "tyre") ?? held[0] ?? null;
}

/** What a tap at `p` means: the nearest part within `reach`, and its nearest end if one is as near. */
export function pick(outlines: Outline[], p: Spot, reach: number): Picked | null {
  let best: { outline: Outline; miss: number } | null = null;
  for (const outline of outlines) {
    const miss = Math.min(...outline.strokes.map((s) => missOf(p, s, reach)));
    // Later ones are drawn on top and win a tie.
    if (miss <= reach && (!best || miss <= best.miss)) best = { outline, miss };
  }
  if (!best) return null;
  let end: Path | null = null;
  let nearest = reach;
  for (const e of best.outline.ends) {
    const miss = Math.hypot(p.u - e.spot.u, p.v - e.spot.v);
    if (miss < nearest) {
      nearest = miss;
      end = e.path;
    }
  }
  return { outline: best.outline, end };
}
