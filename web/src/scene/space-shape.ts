import {
  BufferGeometry,
  Float32BufferAttribute,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshLambertMaterial,
} from "three";
import type { Vector } from "../api/types";
import type { FrameShape, Stretch } from "./frame-shape";
import type { Colours } from "./space-floor";

export interface SpaceShape {
  object: Group;
  dispose: () => void;
}

/** The sides of a stretch, two triangles each, and what shuts its ends. */
function facesOf({ ends: [a, b] }: Stretch): Vector[] {
  const at = (ring: Vector[], k: number) => ring[k % 4] as Vector;
  const sides = [0, 1, 2, 3].flatMap((k) => [
    at(a, k),
    at(a, k + 1),
    at(b, k + 1),
    at(a, k),
    at(b, k + 1),
    at(b, k),
  ]);
  const caps = [a, b].flatMap((ring) => [0, 1, 2, 0, 2, 3].map((k) => at(ring, k)));
  return [...sides, ...caps];
}

/** The frame under load in space, by its stress, and the lines on which it lies without. */
export function makeShape(
  shape: FrameShape,
  unbent: [Vector, Vector][],
  colours: Colours,
): SpaceShape {
  const object = new Group();
  const spent: { dispose: () => void }[] = [];
  const keep = <T extends { dispose: () => void }>(thing: T): T => {
    spent.push(thing);
    return thing;
  };
  const geometryOf = (spots: Vector[]) => {
    const geometry = keep(new BufferGeometry());
    geometry.setAttribute("position", new Float32BufferAttribute(spots.flat(), 3));
    return geometry;
  };
  const lines = (spots: Vector[], color: string) =>
    object.add(new LineSegments(geometryOf(spots), keep(new LineBasicMaterial({ color }))));
  const stretches = shape.members.flat();
  for (const [level, color] of colours.stress.entries()) {
    const spots = stretches.filter((s) => s.level === level).flatMap(facesOf);
    if (spots.length === 0) continue;
    const geometry = geometryOf(spots);
    geometry.computeVertexNormals();
    // Corners run either way round: both sides of a face are lit.
    object.add(new Mesh(geometry, keep(new MeshLambertMaterial({ color, side: 2 }))));
  }
  lines(
    stretches.flatMap(({ ends: [a, b] }) => a.flatMap((p, k) => [p, b[k] as Vector])),
    colours.ink,
  );
  lines(unbent.flat(), colours.massEdge);
  return {
    object,
    dispose: () => {
      for (const one of spent) one.dispose();
    },
  };
}
