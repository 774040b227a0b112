import type { EndPoint, Part, Path, Vector } from "../api/types";
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
  turn,
  turnUpright,
} from "./project";
import { between, bow, edgeOf, kRubber, ring, roundBar, windings } from "./shapes";

/** What is drawn of one part in one view. Lengths in metres on the drawing. */
export type Stroke =
  | { form: "area"; spots: Spot[]; look: string }
  | { form: "line"; spots: Spot[]; look: string }
  /** A line as wide as the thing is: drawn as its two edges. */
  | { form: "band"; spots: Spot[]; width: number; look: string; butt: boolean }
  | { form: "dot"; spot: Spot; radius: number; look: string };

export interface Drawn {
  strokes: Stroke[];
  /** Points that can be picked by themselves. */
  ends: { path: Path; spot: Spot; at: Vector }[];
}

/** How a part is looked at and how it stands. */
export interface Posed {
  face: Face;
  bodies: Bodies | undefined;
  steer_rad: number;
}

/** Of the ends of a gap, m. */
const kGapEnd_m = 0.008;
/** Joints of a shaft stand out from its tube by this. */
export const kJoint = 1.25;

type FramePart = Extract<Part, { profile: unknown }>;

/** The strokes of one part in one view. */
export function drawPart(part: Part, posed: Posed): Drawn {
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
    case "case":
      return {
        strokes: [
          {
            form: "area",
            spots: part.corners
              ? hullOf(part.corners.map((p) => spot(carry(poseOf(bodies, part.a.body), p))))
              : roundBar(end(part.a), end(part.b), part.radius, spot),
            look: "case",
          },
        ],
        ends: given,
      };
    case "gap": {
      const spots = [spot(end(part.a)), spot(end(part.b))];
      return {
        strokes: [
          { form: "line", spots, look: "gap" },
          ...spots.map<Stroke>((s) => ({ form: "dot", spot: s, radius: kGapEnd_m, look: "eye" })),
        ],
        ends: given,
      };
    }
    case "shaft": {
      const spots = [spot(end(part.a)), spot(end(part.b))];
      return {
        strokes: [
          { form: "band", spots, width: 2 * part.radius, look: "shaft", butt: true },
          ...spots.map<Stroke>((s) => ({
            form: "dot",
            spot: s,
            radius: part.radius * kJoint,
            look: "joint",
          })),
        ],
        ends: given,
      };
    }
    case "hole":
      return only(drawHole(part, posed));
    case "mount":
      return { strokes: drawMount(part, posed), ends: given };
    case "hitch":
      return {
        strokes: [
          { form: "dot", spot: spot(end(part.at)), radius: part.radius, look: "hitch-ball" },
        ],
        ends: given,
      };
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
      return {
        strokes: [{ form: "area", spots: roundBar(a, b, part.radius, spot), look: "axle" }],
        ends: given,
      };
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

/** Round where it is looked through; along its wall as wide as it is. */
function drawHole(part: Extract<Part, { kind: "hole" }>, { face, bodies }: Posed): Stroke {
  const pose = poseOf(bodies, part.body);
  const centre = carry(pose, part.centre);
  const axis = turn(pose, part.axis);
  const end = (half: number) => add(centre, axis, half * part.thickness);
  const spots = roundBar(end(-0.5), end(0.5), part.radius, (p) => spotOf(face, p));
  return { form: "area", spots, look: `hole ${part.fate.replace("_", "-")}` };
}

/** A rubber and the line of its axis. */
function drawMount(part: Extract<Part, { kind: "mount" }>, { face, bodies }: Posed): Stroke[] {
  const pose = poseOf(bodies, part.at.body);
  const middle = carry(pose, part.at.p);
  const axis = turn(pose, part.axis);
  const along = (by: number) => add(middle, axis, by * kRubber.half_m);
  const spot = (p: Vector) => spotOf(face, p);
  return [
    {
      form: "area",
      spots: roundBar(along(-1), along(1), kRubber.radius_m, spot),
      look: "rubber",
    },
    { form: "line", spots: [along(-2.4), along(2.4)].map(spot), look: "axis" },
  ];
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
