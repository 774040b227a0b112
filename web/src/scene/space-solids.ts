import {
  BufferGeometry,
  CatmullRomCurve3,
  EdgesGeometry,
  Float32BufferAttribute,
  Group,
  LineSegments,
  type Material,
  Mesh,
  type MeshLambertMaterial,
  type Object3D,
  TubeGeometry,
  Vector3,
} from "three";
import type { Part, Vector } from "../api/types";
import { add } from "./project";
import { edgeOf } from "./shapes";

const kUp = new Vector3(0, 1, 0);
const kTurns = 7;
/** So many that the edges along a round bar are not taken for edges: 360° / 24 is below `kEdge_deg`. */
export const kRound = 24;
const kEdge_deg = 25;

/** Cross-sections nearer than this are a step of the section. */
const kStep_m = 1e-6;

type FramePart = Extract<Part, { profile: unknown }>;
type Section = FramePart["profile"][number];

export const vec = (p: Vector) => new Vector3(p[0], p[1], p[2]);

/** A coil about +y, one long. */
export function coiled(): BufferGeometry {
  const spots = Array.from({ length: kTurns * 16 + 1 }, (_, i) => {
    const angle = (i / 16) * 2 * Math.PI;
    return new Vector3(Math.cos(angle), i / (kTurns * 16) - 0.5, Math.sin(angle));
  });
  return new TubeGeometry(new CatmullRomCurve3(spots), kTurns * 18, 0.13, 6);
}

/** A solid with its edges drawn, as on paper. */
export function solid(
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
export function stretch(object: Object3D, a: Vector3, b: Vector3, radius: number): void {
  const along = b.clone().sub(a);
  const length = along.length() || 1e-6;
  object.position.copy(a).addScaledVector(along, 0.5);
  object.quaternion.setFromUnitVectors(kUp, along.divideScalar(length));
  object.scale.set(radius, length, radius);
}

/** What eight corners hold: four of one face and four of the other, each round alike. */
export function boxOf(corners: readonly Vector[]): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new Float32BufferAttribute(corners.flat(), 3));
  const quad = (a: number, b: number, c: number, d: number) => [a, b, c, a, c, d];
  geometry.setIndex([
    ...quad(0, 1, 2, 3),
    ...quad(7, 6, 5, 4),
    ...[0, 1, 2, 3].flatMap((i) => quad(i, i + 4, ((i + 1) % 4) + 4, (i + 1) % 4)),
  ]);
  const flat = geometry.toNonIndexed();
  flat.computeVertexNormals();
  return flat;
}

/** What lies between two cross-sections of a part of the frame; none where the section steps. */
export function framePiece(part: FramePart, i: number): BufferGeometry | null {
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
