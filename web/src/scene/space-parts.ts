import {
  BoxGeometry,
  BufferGeometry,
  CatmullRomCurve3,
  CylinderGeometry,
  EdgesGeometry,
  Float32BufferAttribute,
  Group,
  LineBasicMaterial,
  LineSegments,
  type Material,
  Mesh,
  MeshLambertMaterial,
  type Object3D,
  SphereGeometry,
  TubeGeometry,
  Vector3,
} from "three";
import type { EndPoint, Part, Vector } from "../api/types";
import { edgeOf } from "./outline";
import { add, type Bodies, carry, poseOf, turn, turnUpright } from "./project";

export interface Colours {
  ground: string;
  ink: string;
  faint: string;
  steel: string;
  rubber: string;
  chosen: string;
  changed: string;
  mass: string;
  /** Edges of masses. */
  massEdge: string;
  /** By level of stress. */
  stress: string[];
}

/** One part in space: its object, and how it follows its bodies. */
export interface SpacePart {
  part: Part;
  object: Object3D;
  follow: (bodies: Bodies | undefined, steer_rad: number) => void;
  /** Colours its faces; one that stands out is seen through whatever is before it. */
  paint: (colour: string, standsOut: boolean) => void;
  dispose: () => void;
}

const kUp = new Vector3(0, 1, 0);
const kTurns = 7;
/** So many that the edges along a round bar are not taken for edges: 360° / 24 is below `kEdge_deg`. */
const kRound = 24;
const kEdge_deg = 25;

/** Cross-sections nearer than this are a step of the section. */
const kStep_m = 1e-6;

type FramePart = Extract<Part, { profile: unknown }>;
type Section = FramePart["profile"][number];

const vec = (p: Vector) => new Vector3(p[0], p[1], p[2]);

function coiled(): BufferGeometry {
  const spots = Array.from({ length: kTurns * 16 + 1 }, (_, i) => {
    const angle = (i / 16) * 2 * Math.PI;
    return new Vector3(Math.cos(angle), i / (kTurns * 16) - 0.5, Math.sin(angle));
  });
  return new TubeGeometry(new CatmullRomCurve3(spots), kTurns * 18, 0.13, 6);
}

/** A solid with its edges drawn, as on paper. */
function solid(
  geometry: BufferGeometry,
  face: MeshLambertMaterial,
  edge: Material,
  angle = kEdge_deg,
): Group {
  const group = new Group();
  group.add(new Mesh(geometry, face));
  group.add(new LineSegments(new EdgesGeometry(geometry, angle), edge));
  return group;
}

/** Lays an object made along +y, one long, between two places. */
function stretch(object: Object3D, a: Vector3, b: Vector3, radius: number): void {
  const along = b.clone().sub(a);
  const length = along.length() || 1e-6;
  object.position.copy(a).addScaledVector(along, 0.5);
  object.quaternion.setFromUnitVectors(kUp, along.divideScalar(length));
  object.scale.set(radius, length, radius);
}

export function makePart(part: Part, colours: Colours): SpacePart | null {
  const isMass = part.kind === "box" || part.kind === "cylinder";
  const see = part.kind === "tyre" || isMass;
  const face = new MeshLambertMaterial({
    color: colours.steel,
    transparent: see,
    opacity: part.kind === "tyre" ? 0.45 : isMass ? 0.14 : 1,
    depthWrite: !see,
    polygonOffset: true,
    polygonOffsetFactor: 2,
    polygonOffsetUnits: 4,
  });
  const edge = new LineBasicMaterial({ color: isMass ? colours.massEdge : colours.ink });
  const body = bodyOf(part, face, edge);
  if (!body) {
    face.dispose();
    edge.dispose();
    return null;
  }
  return {
    part,
    object: body.object,
    follow: body.follow,
    paint: (colour, standsOut) => {
      face.color.set(colour);
      face.depthTest = !(standsOut && !see);
      body.object.traverse((o) => {
        o.renderOrder = standsOut ? 1 : 0;
      });
    },
    dispose: () => {
      body.object.traverse((o) => {
        if (o instanceof Mesh || o instanceof LineSegments) o.geometry.dispose();
      });
      face.dispose();
      edge.dispose();
    },
  };
}

type Body = Pick<SpacePart, "object" | "follow">;

function bodyOf(part: Part, face: MeshLambertMaterial, edge: Material): Body | null {
  const end = (bodies: Bodies | undefined, e: EndPoint) => vec(carry(poseOf(bodies, e.body), e.p));
  switch (part.kind) {
    case "rail":
    case "plate":
    case "crossmember": {
      const object = new Group();
      for (let i = 1; i < part.profile.length; i++) {
        const piece = framePiece(part, i);
        if (piece) object.add(solid(piece, face, edge));
      }
      return { object, follow: rigid(object, part.body) };
    }
    case "bar": {
      const object = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      const balls = [part.a, part.b].map(() => new Mesh(new SphereGeometry(1, 14, 10), face));
      const group = new Group();
      group.add(object, ...balls);
      return {
        object: group,
        follow: (bodies) => {
          const [a, b] = [end(bodies, part.a), end(bodies, part.b)];
          stretch(object, a, b, part.radius);
          balls[0]?.position.copy(a);
          balls[1]?.position.copy(b);
          for (const ball of balls) ball.scale.setScalar(part.radius * 1.5);
        },
      };
    }
    case "arm": {
      const legs = part.feet.map(() => solid(new CylinderGeometry(1, 1, 1, kRound), face, edge));
      const group = new Group();
      group.add(...legs);
      return {
        object: group,
        follow: (bodies) =>
          part.feet.forEach((foot, i) => {
            const leg = legs[i];
            if (leg) stretch(leg, end(bodies, foot), end(bodies, part.apex), part.radius);
          }),
      };
    }
    case "coil": {
      const object = new Mesh(coiled(), face);
      return {
        object,
        follow: (bodies) => stretch(object, end(bodies, part.b), end(bodies, part.a), part.radius),
      };
    }
    case "shock": {
      const can = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      const rod = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      const group = new Group();
      group.add(can, rod);
      return {
        object: group,
        follow: (bodies) => {
          const [a, b] = [end(bodies, part.a), end(bodies, part.b)];
          const middle = b.clone().lerp(a, 0.55);
          stretch(can, b, middle, part.radius);
          stretch(rod, middle, a, part.radius * 0.45);
        },
      };
    }
    case "stop": {
      const object = solid(new CylinderGeometry(1, 0.8, 1, kRound), face, edge);
      return {
        object,
        follow: (bodies) => {
          const [a, b] = [end(bodies, part.a), end(bodies, part.b)];
          stretch(object, a.clone().lerp(b, 0.45), a, part.radius);
        },
      };
    }
    case "leaf": {
      const object = new Mesh(new BufferGeometry(), face);
      return {
        object,
        follow: (bodies) => {
          const spots = [part.a, part.seat, part.b].map((e) => end(bodies, e));
          object.geometry.dispose();
          object.geometry = new TubeGeometry(new CatmullRomCurve3(spots), 20, 0.02, 6);
        },
      };
    }
    case "axle": {
      const object = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      const pose = (bodies: Bodies | undefined, p: Vector) =>
        vec(carry(poseOf(bodies, part.body), p));
      return {
        object,
        follow: (bodies) =>
          stretch(object, pose(bodies, part.a), pose(bodies, part.b), part.radius),
      };
    }
    case "tyre": {
      const object = new Group();
      object.add(solid(new CylinderGeometry(1, 1, 1, 40), face, edge, 40));
      object.add(solid(new CylinderGeometry(0.6, 0.6, 1.02, 28), face, edge, 40));
      return {
        object,
        follow: (bodies, steer_rad) => {
          const pose = poseOf(bodies, part.body);
          const centre = carry(pose, part.centre);
          const straight = turn(pose, part.axis);
          const axis = part.steered ? turnUpright(straight, steer_rad) : straight;
          stretch(
            object,
            vec(add(centre, axis, -part.width / 2)),
            vec(add(centre, axis, part.width / 2)),
            part.radius,
          );
        },
      };
    }
    case "box": {
      const object = new Group();
      const box = solid(new BoxGeometry(...part.size), face, edge);
      box.position.copy(vec(part.centre));
      object.add(box);
      return { object, follow: rigid(object, part.body) };
    }
    case "cylinder": {
      const object = new Group();
      const can = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      const half = part.length / 2;
      stretch(
        can,
        vec(add(part.centre, part.axis, -half)),
        vec(add(part.centre, part.axis, half)),
        part.radius,
      );
      object.add(can);
      return { object, follow: rigid(object, part.body) };
    }
    case "ball":
    case "cg": {
      const object = new Group();
      const ball = new Mesh(new SphereGeometry(part.kind === "cg" ? 0.045 : 0.03, 16, 12), face);
      ball.position.copy(vec(part.centre));
      object.add(ball);
      return { object, follow: rigid(object, part.body) };
    }
  }
}

function rigid(object: Object3D, body: string): SpacePart["follow"] {
  object.matrixAutoUpdate = false;
  return (bodies) => {
    const { R, p } = poseOf(bodies, body);
    object.matrix.set(
      ...[R[0][0], R[0][1], R[0][2], p[0]],
      ...[R[1][0], R[1][1], R[1][2], p[1]],
      ...[R[2][0], R[2][1], R[2][2], p[2]],
      ...[0, 0, 0, 1],
    );
    object.matrixWorldNeedsUpdate = true;
  };
}

/** What lies between two cross-sections of a part of the frame; none where the section steps. */
function framePiece(part: FramePart, i: number): BufferGeometry | null {
  const ends = [part.profile[i - 1], part.profile[i]] as [Section, Section];
  const [a, b] = [vec(ends[0].p), vec(ends[1].p)];
  if (a.distanceTo(b) < kStep_m) return null;
  const edge = edgeOf(ends[0].round && ends[1].round);
  const ring = (one: Section) =>
    edge.map(([across, up]) => {
      const w = across * one.width;
      const isCross = part.kind === "crossmember";
      return add(one.p, isCross ? [w, 0, up * one.depth] : [0, w, up * one.depth]);
    });
  const corners = [...ring(ends[0]), ...ring(ends[1])];
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new Float32BufferAttribute(corners.flat(), 3));
  const n = edge.length;
  const sides = edge.flatMap((_, k) => {
    const next = (k + 1) % n;
    return [k, next, next + n, k, next + n, k + n];
  });
  const caps = edge.slice(2).flatMap((_, k) => [0, k + 2, k + 1, n, n + k + 1, n + k + 2]);
  const index = [...sides, ...caps];
  // Faces look outwards whichever way the part runs.
  const outward = part.kind === "crossmember" ? a.y > b.y : a.x < b.x;
  geometry.setIndex(outward ? index : index.reverse());
  const flat = geometry.toNonIndexed();
  flat.computeVertexNormals();
  geometry.dispose();
  return flat;
}

/** Lines on the floor: the centreline, the front-axle line, and a net of stations. */
export function floorLines(
  from_x: number,
  to_x: number,
  half: number,
  step: number,
  colours: Colours,
): { object: Group; dispose: () => void } {
  const object = new Group();
  const lines = (spots: number[], colour: string) => {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new Float32BufferAttribute(spots, 3));
    object.add(new LineSegments(geometry, new LineBasicMaterial({ color: colour })));
  };
  const net: number[] = [];
  for (let x = Math.ceil(to_x / step) * step; x <= from_x; x += step) {
    net.push(x, -half, 0, x, half, 0);
  }
  for (let y = -Math.floor(half / step) * step; y <= half; y += step) {
    net.push(from_x, y, 0, to_x, y, 0);
  }
  lines(net, colours.faint);
  lines([from_x, 0, 0.001, to_x, 0, 0.001, 0, -half, 0.001, 0, half, 0.001], colours.chosen);
  return {
    object,
    dispose: () =>
      object.traverse((o) => {
        if (!(o instanceof LineSegments)) return;
        o.geometry.dispose();
        (o.material as Material).dispose();
      }),
  };
}
