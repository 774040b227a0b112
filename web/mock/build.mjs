// One build behind the contract: its journal, its variants, and what changes it.
import { drawingOf, sections } from "./frame-drawing.mjs";
import { applied, at, keysOf } from "./patch.mjs";
import { poseOf } from "./pose.mjs";
import { reportOf } from "./report.mjs";
import { sceneOf } from "./scene.mjs";

export const units = {
  metric: false,
  fraction_of_inch: 16,
  per_si: {
    length: { unit: "in", factor: 39.37007874 },
    angle: { unit: "deg", factor: 180 / Math.PI },
    ratio: { unit: "%", factor: 100 },
    mass: { unit: "lb", factor: 2.2046226 },
    force: { unit: "lbf", factor: 0.22480894 },
    torque: { unit: "lb-ft", factor: 0.73756215 },
    angular_speed: { unit: "rpm", factor: 30 / Math.PI },
    gear_ratio: { unit: ":1", factor: 1 },
  },
};

export function makeBuild(id, document) {
  const start = { entry: 1, parent: null, document, who: "", kind: "start", what: "Opened" };
  return { id, head: 1, entries: [{ ...start, when: now(), version: null }], undone: [] };
}

const now = () => new Date().toISOString();
const headOf = (build) => build.entries.find((e) => e.entry === build.head);
const tagOf = (build) => `tag-${build.head}`;
const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);

function varied(document, variant) {
  const { variants, ...rest } = document;
  if (variant === null) return document;
  const changes = variants?.[variant]?.changes;
  if (!changes) return null;
  const next = structuredClone(rest);
  for (const [path, value] of Object.entries(changes)) set(next, path, value);
  return next;
}

function set(document, path, value) {
  const keys = keysOf(path);
  const last = keys.pop();
  let here = document;
  for (const key of keys) here = here[key] ??= {};
  if (value === null) delete here[last];
  else here[last] = value;
}

/** The leaves by which two documents differ. */
function differences(a, b, path = "") {
  if (same(a, b)) return {};
  const isThing = (x) => typeof x === "object" && x !== null && !Array.isArray(x);
  if (!isThing(a) || !isThing(b)) return { [path]: b ?? null };
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  return Object.assign({}, ...[...keys].map((k) => differences(a[k], b[k], `${path}/${k}`)));
}

function keep(build, document, kind, who, what) {
  const entry = Math.max(...build.entries.map((e) => e.entry)) + 1;
  const made = { entry, parent: build.head, document, who, kind, what, version: null };
  build.entries.push({ ...made, when: now() });
  build.head = entry;
  build.undone = [];
}

function changed(build, variant, more = {}) {
  const document = varied(headOf(build).document, variant);
  return [
    200,
    {
      ...stateOf(build),
      document,
      report: reportOf(document),
      scene: sceneOf(document),
      merged: false,
      ...more,
    },
  ];
}

const stateOf = (build) => ({
  etag: tagOf(build),
  entry: build.head,
  can_undo: headOf(build).parent !== null,
  can_redo: build.undone.length > 0,
});

/** What a trial tells of a report: what one work's sheet does. */
function trialOf(report, work) {
  const { states, axles, articulation, frame, drivetrain } = report;
  const own = {
    weigh: { states },
    axles: { axles, articulation },
    frame: { frame: frame && { ...frame, stages: [] } },
    drivetrain: { drivetrain },
  };
  const findings = report.findings.filter((f) => f.work === work);
  const summary = report.summary[work] ?? [];
  return { work, ...(work === "frame" ? {} : { summary }), findings, ...own[work] };
}

function faultIn(document, patch) {
  for (const { path, value } of patch) {
    const before = at(document, path);
    if (/^[\d-]/.test(before) && typeof value === "string" && !/\d/.test(value)) {
      const message = `"${value}" has no number in it.`;
      const remedy = "Write a number and its unit, such as 41 5/8 in.";
      return [{ code: "units.not_a_number", path, message, remedy }];
    }
  }
  return null;
}

/** Answers a request about one build: status and body. */
export function answerBuild(build, method, rest, query, body, headers) {
  const variant = query.get("variant");
  const document = varied(headOf(build).document, variant);
  if (document === null) return [404, { error: "There is no variant of that name here." }];
  const who = headers["rig-initials"] ?? "";
  const tag = headers["if-match"]?.replaceAll('"', "");
  const etag = tagOf(build);
  switch (`${method} ${rest}`) {
    case "GET ":
      return [
        200,
        { ...stateOf(build), file: `${build.id}.rig.json`, document, units, fault: null },
      ];
    case "GET /report":
      return [200, { etag, report: reportOf(document) }];
    case "GET /scene":
      return [200, { etag, scene: sceneOf(document) }];
    case "POST /pose":
      return [200, { etag, pose: poseOf(document, body) }];
    case "POST /trial": {
      // Where cases go is the program's to work out.
      const next = Array.isArray(body) ? applied(document, body) : document;
      return [200, { trial: trialOf(reportOf(next), query.get("work")), scene: sceneOf(next) }];
    }
    case "PATCH ":
      return patch(build, variant, tag, body, who);
    case "GET /history":
      return [200, historyOf(build)];
    case "GET /next":
      return [200, { readings: kReadings }];
    case "GET /frame/drawing": {
      const drawing = drawingOf(reportOf(document).frame, query.get("case"));
      return drawing ? [200, { etag, drawing }] : [404, { error: "There is no such case." }];
    }
    case "GET /frame/sections":
      return [200, { etag, sections }];
    case "GET /compare":
      return [200, comparison(build, query.get("a"), query.get("b"))];
    case "GET /dependants":
      return [200, { dependants: dependantsOf(document, query.get("path")) }];
    case "POST /versions":
      build.entries.find((e) => e.entry === body.entry).version = body.name;
      return [200, historyOf(build)];
    default:
      break;
  }
  if (tag !== etag) return [412, { error: "Another screen was first.", conflicts: [], etag }];
  const head = headOf(build);
  switch (`${method} ${rest}`) {
    case "POST /undo":
      if (head.parent === null) return [409, { error: "There is nothing to undo." }];
      build.undone.push(build.head);
      build.head = head.parent;
      return changed(build, variant);
    case "POST /redo":
      if (build.undone.length === 0) return [409, { error: "There is nothing to redo." }];
      build.head = build.undone.pop();
      return changed(build, variant);
    case "POST /restore":
      build.head = body.entry;
      build.undone = [];
      return changed(build, variant);
    case "POST /change":
      return change(build, document, body, who);
    default:
      return [404, { error: "There is nothing here." }];
  }
}

function patch(build, variant, tag, body, who) {
  const base = build.entries.find((e) => `tag-${e.entry}` === tag);
  if (!base) return [428, { error: "Say what it was made on." }];
  const from = varied(base.document, variant);
  const document = varied(headOf(build).document, variant);
  const conflicts = body
    .filter(({ path }) => !same(at(from, path), at(document, path)))
    .map(({ path, value }) => ({
      path,
      base: at(from, path),
      theirs: at(document, path),
      yours: value,
    }));
  if (conflicts.length > 0) {
    return [412, { error: "Another screen changed it too.", conflicts, etag: tagOf(build) }];
  }
  const diagnostics = faultIn(document, body);
  const next = applied(document, body);
  if (diagnostics || next === null) {
    return [422, { error: "The entry does not read.", diagnostics: diagnostics ?? [] }];
  }
  const what = body.map(({ path }) => keysOf(path).join(", ")).join("; ");
  const head = headOf(build).document;
  if (variant === null) keep(build, next, "edit", who, what);
  else {
    const { variants, ...plain } = head;
    const changes = differences(plain, next);
    const all = { ...variants, [variant]: { ...variants[variant], changes } };
    keep(build, { ...plain, variants: all }, "edit", who, what);
  }
  return changed(build, variant, { merged: tag !== tagOf(build) });
}

function change(build, document, { kind, path, to, with_dependants }, who) {
  if (kind === "move_cases") {
    // Where they go is the program's to work out.
    keep(build, structuredClone(document), "edit", who, "cases moved");
    return changed(build, null, { path: "/drivetrain/segments" });
  }
  const keys = keysOf(path);
  const id = keys.pop();
  const next = structuredClone(document);
  const map = keys.reduce((here, key) => here[key], next);
  const into = to ?? `${id}_mirror`;
  if (kind === "remove") {
    const dependants = dependantsOf(document, path);
    if (dependants.length > 0 && !with_dependants) {
      return [409, { error: "Something depends on it.", dependants }];
    }
    delete map[id];
    for (const d of dependants) set(next, d.path, null);
  } else {
    if (map[into] !== undefined) return [422, { error: "That name is taken.", diagnostics: [] }];
    map[into] = structuredClone(map[id]);
    if (kind === "rename") delete map[id];
  }
  keep(build, next, "edit", who, `${kind} ${id}`);
  return changed(build, null, { path: kind === "remove" ? path : `/${[...keys, into].join("/")}` });
}

function dependantsOf(document, path) {
  const [top, id] = keysOf(path ?? "");
  if (top !== "masses") return [];
  return Object.entries(document.load_states ?? {})
    .filter(([, state]) => state.aboard?.includes(id))
    .map(([state]) => ({ path: `/load_states/${state}/aboard`, label: `load state ${state}` }));
}

function historyOf(build) {
  const path = new Set();
  for (let e = headOf(build); e; e = build.entries.find((p) => p.entry === e.parent)) path.add(e);
  const entries = [...build.entries].reverse();
  return {
    head: build.head,
    entries: entries.map(({ document: _, ...e }) => ({
      ...e,
      on_path: path.has(build.entries.find((x) => x.entry === e.entry)),
    })),
  };
}

const kReadings = [
  {
    path: "/axles/front/coils/coil/rate",
    label: "Front axle, coil, rate",
    now: "250 lbf/in",
    plus_minus: "25 lbf/in",
    moves: [
      {
        finding: "seat.front.coil",
        sentence: "Tack the seats at 14 3/4 in.",
        by: "14 3/8 in to 15 in",
      },
    ],
  },
];

function comparison(build, a, b) {
  const { document } = headOf(build);
  const side = (variant) => {
    const own = varied(document, variant);
    const label = variant === null ? "The build" : document.variants[variant].label;
    return { label, report: reportOf(own), scene: sceneOf(own) };
  };
  const { variants: _, ...plain } = document;
  const from = a === null ? plain : varied(document, a);
  const to = b === null ? plain : varied(document, b);
  const inputs = Object.entries(differences(from, to)).map(([path, value]) => ({
    path,
    label: keysOf(path).join(", "),
    a: String(at(from, path) ?? "not given"),
    b: String(value ?? "not given"),
  }));
  return {
    a: side(a),
    b: side(b),
    inputs,
    words: inputs.map((i) => `${i.label}: ${i.a}, ${i.b}.`),
  };
}
