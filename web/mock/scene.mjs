// Draws the invented truck from its document, so that an edited point moves in the picture.
import { capital, metres, mirrored, named, vector } from "./places.mjs";
import { drivetrainParts } from "./scene-drivetrain.mjs";

export function sceneOf(document) {
  const parts = [];
  frameParts(parts, document.frame);
  drivetrainParts(parts, document);
  for (const [id, axle] of Object.entries(document.axles)) axleParts(parts, document, id, axle);
  parts.push({
    kind: "hitch",
    path: "/hitch",
    label: "Hitch ball",
    at: { body: "frame", p: vector(document.hitch.ball), path: "/hitch/ball" },
    radius: 0.0254,
  });
  for (const [id, item] of Object.entries(document.masses)) {
    const path = `/masses/${id}`;
    const common = {
      path,
      label: item.label,
      body: "frame",
      centre: vector(item.at),
      mass: { si: 1, text: "" },
    };
    if (item.size?.shape === "box") {
      const { length, width, height } = item.size;
      parts.push({ kind: "box", ...common, size: [length, width, height].map(metres) });
    } else if (item.size) {
      parts.push({
        kind: "cylinder",
        ...common,
        axis: [0, 1, 0],
        length: metres(item.size.length),
        radius: metres(item.size.diameter) / 2,
      });
    } else parts.push({ kind: "ball", ...common });
  }
  for (const [state, x] of [
    ["bare", -1.18],
    ["road", -1.27],
    ["towing", -1.52],
  ]) {
    parts.push({
      kind: "cg",
      state,
      path: `/load_states/${state}`,
      label: `Balance point, ${state}`,
      body: "frame",
      centre: [x, 0.01, 0.76],
    });
  }
  return {
    extent: { front_x: 0.65, rear_x: -4.15, top_z: 1.95 },
    floor_z: 0,
    front_axle_x: 0,
    bodies: ["frame", ...Object.keys(document.axles)],
    parts,
  };
}

function frameParts(parts, frame) {
  const common = { body: "frame", fate: "stays" };
  for (const [id, rail] of Object.entries(frame.rails)) {
    const path = `/frame/rails/${id}`;
    for (const side of [1, -1]) {
      const points = rail.line.map((p, i) => ({
        path: `${path}/line/${i}`,
        p: side > 0 ? vector(p) : mirrored(vector(p)),
      }));
      parts.push({
        kind: "rail",
        name: `${id}${side > 0 ? ".left" : ".right"}`,
        path,
        label: rail.label,
        ...common,
        points,
        profile: points.map(({ p }) => ({
          p,
          depth: metres(rail.section.depth),
          width: metres(rail.section.flange),
          round: false,
        })),
      });
    }
  }
  for (const [id, member] of Object.entries(frame.crossmembers)) {
    const size = metres(member.section.outside_diameter);
    const x = -metres(member.at.station);
    parts.push({
      kind: "crossmember",
      name: id,
      path: `/frame/crossmembers/${id}`,
      label: member.label,
      ...common,
      points: [],
      profile: [0.43, -0.43].map((y) => ({
        p: [x, y, 0.58],
        depth: size,
        width: size,
        round: true,
      })),
    });
  }
}

function axleParts(parts, document, id, axle) {
  const base = `/axles/${id}`;
  const end = (body, path, p, side) => ({
    body,
    path,
    p: side > 0 ? vector(p) : mirrored(vector(p)),
  });
  const sides = (thing) => (thing.both_sides ? [1, -1] : [1]);
  const pairs = [
    ["links", "bar", 0.022, "frame", "axle", true],
    ["coils", "coil", 0.07, "upper", "lower", false],
    ["bump_stops", "stop", 0.03, "frame", "axle", false],
    ["dampers", "shock", 0.03, "frame", "axle", false],
  ];
  for (const [key, kind, radius, a, b, joint] of pairs) {
    for (const [name, thing] of Object.entries(axle[key] ?? {})) {
      const path = `${base}/${key}/${name}`;
      for (const side of sides(thing)) {
        const place = (e) => (joint ? thing[e].at : thing[e]);
        parts.push({
          kind,
          name: `${name}${side > 0 ? "" : ".right"}`,
          path,
          label: named(thing, side),
          a: end("frame", `${path}/${a}${joint ? "/at" : ""}`, place(a), side),
          b: end(id, `${path}/${b}${joint ? "/at" : ""}`, place(b), side),
          radius,
        });
      }
    }
  }
  for (const [name, pack] of Object.entries(axle.leaf_packs ?? {})) {
    const path = `${base}/leaf_packs/${name}`;
    for (const side of sides(pack)) {
      parts.push({
        kind: "leaf",
        name: `${name}${side > 0 ? "" : ".right"}`,
        path,
        label: named(pack, side),
        a: end("frame", `${path}/front_eye`, pack.front_eye, side),
        seat: end(id, `${path}/seat`, pack.seat, side),
        b: end("frame", `${path}/rear_eye`, pack.rear_eye, side),
      });
    }
  }
  const x = -metres(axle.station);
  const z = metres(axle.height);
  const half = metres(axle.track) / 2;
  parts.push({
    kind: "axle",
    path: base,
    label: capital(axle.label),
    body: id,
    a: [x, -half, z],
    b: [x, half, z],
    radius: 0.045,
  });
  const tyre = document.tyres[axle.tyre];
  for (const side of [1, -1]) {
    parts.push({
      kind: "tyre",
      path: `/tyres/${axle.tyre}`,
      label: `${side > 0 ? "Left" : "Right"} ${id} tyre`,
      body: id,
      centre: [x, side * half, z],
      axis: [0, 1, 0],
      radius: z,
      width: metres(tyre.width),
      steered: axle.steered === true,
    });
  }
}
