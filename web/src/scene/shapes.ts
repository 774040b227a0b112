import type { Vector } from "../api/types";
import { add, hullOf, type Spot, squareTo } from "./project";

const kRoundness = 60;
/** Of a mount's rubber, that is not told: only where it is and how it leans. */
export const kRubber = { half_m: 0.028, radius_m: 0.036 };

export function ring(centre: Vector, axis: Vector, radius: number): Vector[] {
  const [e, f] = squareTo(axis);
  return Array.from({ length: kRoundness }, (_, i) => {
    const angle = (2 * Math.PI * i) / kRoundness;
    return add(add(centre, e, radius * Math.cos(angle)), f, radius * Math.sin(angle));
  });
}

/** What a round bar covers: the hull of the rings at its ends. */
export function roundBar(a: Vector, b: Vector, radius: number, spot: (p: Vector) => Spot): Spot[] {
  const axis = unitBetween(a, b);
  return hullOf([...ring(a, axis, radius), ...ring(b, axis, radius)].map(spot));
}

function unitBetween(a: Vector, b: Vector): Vector {
  const d = add(b, a, -1);
  const size = Math.hypot(d[0], d[1], d[2]) || 1;
  return [d[0] / size, d[1] / size, d[2] / size];
}

export function between(a: Spot, b: Spot, share: number): Spot {
  return { u: a.u + (b.u - a.u) * share, v: a.v + (b.v - a.v) * share };
}

export function windings(a: Spot, b: Spot, radius: number): Spot[] {
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
export function bow(a: Spot, seat: Spot, b: Spot): Spot[] {
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
