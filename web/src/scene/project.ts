import type { BodyPose, Vector } from "../api/types";

/** One of the three views of the drawing, in third-angle arrangement. */
export type Face = "side" | "top" | "end";

/** A point on the drawing, metres: u to the right, v down the sheet. */
export interface Spot {
  u: number;
  v: number;
}

/** The left side seen from the left, front to the left; the top above it; the front to its left. */
export function spotOf(face: Face, p: Vector): Spot {
  switch (face) {
    case "side":
      return { u: -p[0], v: -p[2] };
    case "top":
      return { u: -p[0], v: p[1] };
    case "end":
      return { u: p[1], v: -p[2] };
  }
}

const kStill: BodyPose = {
  R: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  p: [0, 0, 0],
};

export type Bodies = Record<string, BodyPose>;

export function poseOf(bodies: Bodies | undefined, body: string): BodyPose {
  return bodies?.[body] ?? kStill;
}

/** A point given as drawn, carried along by its body. */
export function carry(pose: BodyPose, q: Vector): Vector {
  const turned = turn(pose, q);
  return [turned[0] + pose.p[0], turned[1] + pose.p[1], turned[2] + pose.p[2]];
}

/** A direction given as drawn, turned with its body. */
export function turn({ R }: BodyPose, q: Vector): Vector {
  const row = (r: Vector) => r[0] * q[0] + r[1] * q[1] + r[2] * q[2];
  return [row(R[0]), row(R[1]), row(R[2])];
}

/** A direction turned about the upright by an angle; how a steered wheel is drawn. */
export function turnUpright(q: Vector, angle_rad: number): Vector {
  const c = Math.cos(angle_rad);
  const s = Math.sin(angle_rad);
  return [c * q[0] - s * q[1], s * q[0] + c * q[1], q[2]];
}

export function add(a: Vector, b: Vector, scale = 1): Vector {
  return [a[0] + scale * b[0], a[1] + scale * b[1], a[2] + scale * b[2]];
}

/** Two unit directions square to `axis` and to each other. */
export function squareTo(axis: Vector): [Vector, Vector] {
  const other: Vector = Math.abs(axis[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0];
  const first = unit(cross(other, axis));
  return [first, unit(cross(axis, first))];
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

export function unit(a: Vector): Vector {
  const size = Math.hypot(a[0], a[1], a[2]) || 1;
  return [a[0] / size, a[1] / size, a[2] / size];
}

/** The outline of a set of spots: their convex hull, counter-clockwise. */
export function hullOf(spots: Spot[]): Spot[] {
  const sorted = [...spots].sort((a, b) => a.u - b.u || a.v - b.v);
  const half = (list: Spot[]) => {
    const line: Spot[] = [];
    for (const spot of list) {
      for (let n = line.length; n >= 2; n = line.length) {
        const a = line[n - 2] as Spot;
        const b = line[n - 1] as Spot;
        if ((b.u - a.u) * (spot.v - a.v) - (b.v - a.v) * (spot.u - a.u) > 0) break;
        line.pop();
      }
      line.push(spot);
    }
    return line.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}
