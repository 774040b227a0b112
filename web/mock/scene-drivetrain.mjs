// Draws the invented truck's cases, mounts and shafts from its document.
import { metres, mirrored, named, vector } from "./places.mjs";

const kRadius = { engine: 0.19, gearbox: 0.13, adapter: 0.11, transfer_case: 0.16 };
const kLean = (lean, side) => [0, -side * Math.sin(lean), Math.cos(lean)];

/** The cases in their order: each from where the one before it ends. */
export function casesOf(document) {
  let end = [0, 0, 0];
  let slope = 0;
  return Object.entries(document.drivetrain?.segments ?? {}).map(([id, segment]) => {
    if (segment.starts_at) end = vector(segment.starts_at);
    if (segment.slope) slope = (3.5 * Math.PI) / 180;
    const a = end;
    const length = metres(segment.length);
    end = [a[0] - length * Math.cos(slope), a[1], a[2] - length * Math.sin(slope)];
    return { id, segment, path: `/drivetrain/segments/${id}`, a, b: end };
  });
}

export function drivetrainParts(parts, document) {
  const { drivetrain } = document;
  if (!drivetrain) return;
  for (const { id, segment, path, a, b } of casesOf(document)) {
    parts.push({
      kind: "case",
      name: id,
      path,
      label: named(segment),
      a: { body: "frame", p: a, path: segment.starts_at ? `${path}/starts_at` : "" },
      b: { body: "frame", p: b, path: "" },
      radius: kRadius[segment.kind],
      corners: null,
      moves: ["station", "height"],
    });
  }
  for (const [id, mount] of Object.entries(drivetrain.mounts ?? {})) {
    const path = `/drivetrain/mounts/${id}`;
    for (const side of mount.both_sides ? [1, -1] : [1]) {
      const p = vector(mount.at);
      parts.push({
        kind: "mount",
        name: `${id}${side > 0 ? "" : ".right"}`,
        path,
        label: named(mount, side),
        at: { body: "frame", p: side > 0 ? p : mirrored(p), path: `${path}/at` },
        axis: kLean(mount.lean ? Math.PI / 6 : 0, side),
      });
    }
  }
  for (const [id, shaft] of Object.entries(drivetrain.shafts ?? {})) {
    const path = `/drivetrain/shafts/${id}`;
    const from = drivetrain.outputs[shaft.from];
    parts.push({
      kind: "shaft",
      name: id,
      path,
      label: named(shaft),
      a: {
        body: "frame",
        p: vector(from.joint),
        path: `/drivetrain/outputs/${shaft.from}/joint`,
      },
      b: { body: shaft.to, p: vector(shaft.end_joint), path: `${path}/end_joint` },
      radius: metres(shaft.tube.outside_diameter) / 2,
    });
  }
}
