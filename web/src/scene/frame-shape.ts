import type { FrameDrawing, Vector } from "../api/types";
import { add, type Bodies, carry, cross, poseOf } from "./project";

/** A short stretch of a member, bent as far as it is shown: four corners at each end. */
export interface Stretch {
  level: number;
  ends: [Vector[], Vector[]];
}

/** The frame under load as it is drawn now. */
export interface FrameShape {
  members: Stretch[][];
  /** Where it is stressed most. */
  worst: Vector;
}

type Member = FrameDrawing["members"][number];
type Point = Member["pieces"][number]["points"][number];
type Motion = NonNullable<Point["before"]>;

const kStill = { d: [0, 0, 0], r: [0, 0, 0] } as const;

/** Between the two shapes; of a member that is only in one of the frames, that one's. */
function between(point: Point, blend: number): { d: Vector; r: Vector } {
  const before = point.before ?? point.after ?? kStill;
  const after = point.after ?? point.before ?? kStill;
  const mix = (a: Vector, b: Vector): Vector =>
    add([a[0] * (1 - blend), a[1] * (1 - blend), a[2] * (1 - blend)], b, blend);
  return { d: mix(before.d, after.d), r: mix(before.r, after.r) };
}

/** Which of the two the slider is nearer to: its members, stress and worst place are shown. */
export function nearerEnd(drawing: FrameDrawing, blend: number): "before" | "after" {
  return drawing.before && blend < 0.5 ? "before" : "after";
}

/** The frame with its displacements exaggerated, `blend` of the way from as it came to as planned. */
export function shapeOf(
  drawing: FrameDrawing,
  blend: number,
  bodies: Bodies | undefined,
): FrameShape {
  const end = nearerEnd(drawing, blend);
  const share = drawing.before ? blend : 1;
  const pose = poseOf(bodies, "frame");
  const bent = (p: Vector, d: Vector) => carry(pose, add(p, d, drawing.exaggeration));
  const members = drawing.members
    .filter((member) => member[end])
    .map((member) =>
      member.pieces.flatMap(({ corners, points }) => {
        const rings = points.map((point) => {
          const { d, r } = between(point, share);
          return corners.map((c) => bent(add(point.p, c), add(d, cross(r, c))));
        });
        return points.slice(1).map(
          (point, i): Stretch => ({
            level: Math.max(levelOf(points[i]?.[end]), levelOf(point[end])),
            ends: [rings[i] ?? [], rings[i + 1] ?? []],
          }),
        );
      }),
    );
  const worst = drawing[end] ?? drawing.after;
  return { members, worst: bent(worst.p, worst.d) };
}

function levelOf(motion: Motion | null | undefined): number {
  return motion?.level ?? 0;
}

/** The reference lines of what is shown, as they lie without load. */
export function unbentLines(
  drawing: FrameDrawing,
  blend: number,
  bodies: Bodies | undefined,
): [Vector, Vector][] {
  const end = nearerEnd(drawing, blend);
  const pose = poseOf(bodies, "frame");
  return drawing.members
    .filter((member) => member[end])
    .flatMap((member) =>
      member.pieces.flatMap(({ points }): [Vector, Vector][] => {
        const first = points[0];
        const last = points.at(-1);
        return first && last ? [[carry(pose, first.p), carry(pose, last.p)]] : [];
      }),
    );
}
