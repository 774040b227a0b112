import { join } from "../api/pointer";
import type { Change } from "../api/shop-types";
import type { Edit, Part, Path, Units, Vector } from "../api/types";
import { inchFraction } from "../format/quantity";
import { type Bodies, poseOf } from "./project";

export type Axis = "station" | "offset" | "height";

/** A point of the build that a hand can take hold of. */
export interface Point {
  /** Of its three coordinates in the build file. */
  path: Path;
  body: string;
  /** As drawn, in V. */
  q: Vector;
  /** Its coordinates that the build file has. */
  axes: readonly Axis[];
  /** The mirrored one of a thing that is given once for both sides. */
  mirrored: boolean;
  /** By a line of cases all that is bolted together is moved, with what is on it; `path` is a case's. */
  holds: "point" | "line";
}

const kAxes: readonly Axis[] = ["station", "offset", "height"];
/** An axle stands square to the middle of the truck. */
const kAxesOfAxle: readonly Axis[] = ["station", "height"];
const kPerInch_m = 0.0254;
const kFinest = 16;
const kStill_m = 1e-6;

/** The points by which a part is drawn, as the build file gives them. */
export function pointsOf(part: Part): Point[] {
  const mirrored = /\.right$/.test(part.name ?? "");
  const ends = (list: { body: string; p: Vector; path: Path }[]) =>
    // Some are where something else puts them.
    list
      .filter(({ path }) => path !== "")
      .map(({ body, p, path }) => pointAt(path, body, p, mirrored));
  switch (part.kind) {
    case "case":
      return [...ends([part.a, part.b]), lineBy(part)];
    case "bar":
    case "shaft":
    case "gap":
    case "coil":
    case "shock":
    case "stop":
      return ends([part.a, part.b]);
    case "mount":
    case "hitch":
      return ends([part.at]);
    case "arm":
      return ends([part.apex, ...part.feet]);
    case "leaf":
      return ends([part.a, part.seat, part.b]);
    case "rail":
    case "plate":
    case "crossmember":
      return part.points.map(({ path, p }) => pointAt(path, part.body, p, mirrored));
    case "box":
    case "cylinder":
    case "ball":
      return [pointAt(join(part.path, "at"), part.body, part.centre, false)];
    case "axle":
      return [
        { ...pointAt(part.path, part.body, between(part.a, part.b), false), axes: kAxesOfAxle },
      ];
    default:
      return [];
  }
}

function pointAt(path: Path, body: string, q: Vector, mirrored: boolean): Point {
  return { path, body, q, axes: kAxes, mirrored, holds: "point" };
}

/** The middle of a case, by which its line is moved. */
function lineBy(part: Extract<Part, { kind: "case" }>): Point {
  const { a, b, path, moves } = part;
  return { ...pointAt(path, a.body, between(a.p, b.p), false), axes: moves, holds: "line" };
}

function between(a: Vector, b: Vector): Vector {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
}

/** The points of several parts, each once: pieces of one shaft meet in a point. */
export function pointsOfAll(parts: readonly Part[]): Point[] {
  const keyOf = ({ path, mirrored }: Point) => `${path} ${mirrored}`;
  return [...new Map(parts.flatMap(pointsOf).map((point) => [keyOf(point), point])).values()];
}

/** A movement seen in a view, as one of the point as drawn: its body may stand turned. */
export function asDrawn(bodies: Bodies | undefined, body: string, d: Vector): Vector {
  const { R } = poseOf(bodies, body);
  const column = (i: 0 | 1 | 2) => R[0][i] * d[0] + R[1][i] * d[1] + R[2][i] * d[2];
  return [column(0), column(1), column(2)];
}

/** To the nearest sixteenth of an inch, or millimetre. */
export function snapped(si: number, units: Units): number {
  const step = units.metric ? 0.001 : kPerInch_m / kFinest;
  return Math.round(si / step) * step;
}

/** One coordinate as the build file has it: station is aft of the front axle, offset to the left. */
function coordinate(point: Point, axis: 0 | 1 | 2, q: Vector): number {
  if (axis === 0) return -q[0];
  return axis === 1 && point.mirrored ? -q[1] : q[axis];
}

export function coordinateText(si: number, units: Units): string {
  if (units.metric) return `${Math.round(si * 1000)} mm`.replace("−", "-");
  return `${inchFraction(si / kPerInch_m, kFinest).replace("−", "-")} in`;
}

/** The change that moves a line of cases by `d`; null: by less than can be told. */
export function lineMove(point: Point, d: Vector, units: Units): Change | null {
  const ways: [Axis, "rearward" | "left" | "up", number][] = [
    ["station", "rearward", -d[0]],
    ["offset", "left", d[1]],
    ["height", "up", d[2]],
  ];
  const told = ways
    .filter(([axis]) => point.axes.includes(axis))
    .map(([, way, si]) => [way, snapped(si, units)] as const)
    .filter(([, by]) => by !== 0)
    .map(([way, by]) => [way, coordinateText(by, units)]);
  return told.length > 0
    ? { kind: "move_cases", path: point.path, ...Object.fromEntries(told) }
    : null;
}

/** The edits that put a point at `q`, for the coordinates that have moved.
 * @param valuePath  Where the text of a coordinate stands. */
export function editsTo(
  point: Point,
  q: Vector,
  units: Units,
  valuePath: (path: Path) => Path,
): Edit[] {
  return point.axes.flatMap((name) => {
    const axis = kAxes.indexOf(name) as 0 | 1 | 2;
    const before = coordinate(point, axis, point.q);
    const wanted = coordinate(point, axis, q);
    // What the hand has not moved stays as it was written, also off the sixteenth.
    if (Math.abs(wanted - before) < kStill_m) return [];
    const path = valuePath(join(point.path, name));
    return [{ path, value: coordinateText(snapped(wanted, units), units) }];
  });
}
