import {
  BoxGeometry,
  BufferGeometry,
  CatmullRomCurve3,
  CylinderGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
  type Object3D,
  SphereGeometry,
  TubeGeometry,
} from "three";
import type { EndPoint, Part, Vector } from "../api/types";
import { kJoint } from "./draw-part";
import { add, type Bodies, carry, poseOf, turn, turnUpright } from "./project";
import { kRubber } from "./shapes";
import type { Colours } from "./space-floor";
import { boxOf, coiled, framePiece, kRound, solid, stretch, vec } from "./space-solids";

/** How much is seen of what stands aside. */
const kAside = 0.16;

/** One part in space: its object, and how it follows its bodies. */
export interface SpacePart {
  part: Part;
  object: Object3D;
  follow: (bodies: Bodies | undefined, steer_rad: number) => void;
  /** Colours its faces; one that stands out is seen through whatever is before it, one that stands
   * aside lets others be seen through it. */
  paint: (colour: string, stands: "out" | "aside" | "") => void;
  dispose: () => void;
}

export function makePart(part: Part, colours: Colours): SpacePart | null {
  const isMass = part.kind === "box" || part.kind === "cylinder";
  const see = part.kind === "tyre" || isMass;
  const seen = part.kind === "tyre" ? 0.45 : isMass ? 0.14 : 1;
  const face = new MeshLambertMaterial({
    color: colours.steel,
    transparent: see,
    opacity: seen,
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
    paint: (colour, stands) => {
      const standsOut = stands === "out";
      const isAside = stands === "aside" && !see;
      face.color.set(colour);
      face.depthTest = !(standsOut && !see);
      face.transparent = see || isAside;
      face.opacity = isAside ? kAside : seen;
      face.depthWrite = !face.transparent;
      edge.transparent = isAside;
      edge.opacity = isAside ? 2 * kAside : 1;
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

/** Of the line across a gap, m. */
const kGap_m = 0.004;

type Body = Pick<SpacePart, "object" | "follow">;

function bodyOf(part: Part, face: MeshLambertMaterial, edge: LineBasicMaterial): Body | null {
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
    case "gap": {
      const object = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      return {
        object,
        follow: (bodies) => stretch(object, end(bodies, part.b), end(bodies, part.a), kGap_m),
      };
    }
    case "case": {
      if (part.corners) {
        const object = solid(boxOf(part.corners), face, edge);
        return { object, follow: rigid(object, part.a.body) };
      }
      const object = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      return {
        object,
        follow: (bodies) => stretch(object, end(bodies, part.b), end(bodies, part.a), part.radius),
      };
    }
    case "hole": {
      // A hair thicker than its wall, so that it shows on both faces.
      const object = new Group();
      const disc = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      const half = 0.55 * part.thickness;
      stretch(
        disc,
        vec(add(part.centre, part.axis, -half)),
        vec(add(part.centre, part.axis, half)),
        part.radius,
      );
      object.add(disc);
      return { object, follow: rigid(object, part.body) };
    }
    case "mount": {
      const object = solid(new CylinderGeometry(1, 1, 1, kRound), face, edge);
      return {
        object,
        follow: (bodies) => {
          const pose = poseOf(bodies, part.at.body);
          const middle = carry(pose, part.at.p);
          const axis = turn(pose, part.axis);
          const along = (by: number) => vec(add(middle, axis, by * kRubber.half_m));
          stretch(object, along(-1), along(1), kRubber.radius_m);
        },
      };
    }
    case "hitch": {
      const object = new Mesh(new SphereGeometry(part.radius, 16, 12), face);
      return { object, follow: (bodies) => void object.position.copy(end(bodies, part.at)) };
    }
    case "bar":
    case "shaft": {
      const swell = part.kind === "shaft" ? kJoint : 1.5;
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
          for (const ball of balls) ball.scale.setScalar(part.radius * swell);
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
