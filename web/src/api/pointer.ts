import type { Json, Path } from "./types";

const kept = new Map<Path, readonly string[]>();
/** More paths than any build has fields. */
const kMostKept = 20_000;

/** The keys of a JSON pointer; asked for thousands of times for one answer, and kept. */
export function keysOf(path: Path): readonly string[] {
  const before = kept.get(path);
  if (before) return before;
  if (kept.size >= kMostKept) kept.clear();
  const keys = split(path);
  kept.set(path, keys);
  return keys;
}

function split(path: Path): string[] {
  if (path === "") return [];
  const keys = path.slice(1).split("/");
  if (!path.includes("~")) return keys;
  return keys.map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));
}

export function join(path: Path, ...keys: (string | number)[]): Path {
  return keys.reduce<Path>(
    (all, key) => `${all}/${String(key).replaceAll("~", "~0").replaceAll("/", "~1")}`,
    path,
  );
}

/** The path of what holds the value at a path. */
export function parentOf(path: Path): Path {
  return path.slice(0, Math.max(0, path.lastIndexOf("/")));
}

/** What stands at a path; undefined when nothing does. */
export function at(document: Json | undefined, path: Path): Json | undefined {
  let here: Json | undefined = document;
  for (const key of keysOf(path)) {
    if (Array.isArray(here)) here = here[Number(key)];
    else if (typeof here === "object" && here !== null) here = here[key];
    else return undefined;
  }
  return here;
}

/** Whether `path` is `whole` or lies within it. */
export function isWithin(path: Path, whole: Path): boolean {
  return path === whole || path.startsWith(`${whole}/`);
}

/** How many keys lead to a thing in each of the groups that hold things. */
const kThingDepth: Record<string, number> = {
  masses: 2,
  tyres: 2,
  load_states: 2,
  corner_weighings: 2,
  lifted_weighings: 2,
};

/** What stands by itself in the drivetrain; all else in it is by id. */
const kDriveSingles = ["engine", "hoist"];

function driveDepth([, group = "", ...rest]: readonly string[]): number {
  if (kDriveSingles.includes(group)) return 2;
  return rest.length > 0 ? 3 : 1;
}

/** The thing a path belongs to: a link, a coil, a crossmember, a shaft, a mass item, an axle's own
 * values, the ratings. */
export function thingOf(path: Path): Path {
  const keys = keysOf(path);
  const [top = ""] = keys;
  const isInAxle = top === "axles" && keys.length >= 4;
  const isInFrame = top === "frame" && keys.length >= 3;
  const fixed = top === "axles" ? 2 : (kThingDepth[top] ?? 1);
  const within = top === "drivetrain" ? driveDepth(keys) : fixed;
  const depth = isInAxle ? 4 : isInFrame ? 3 : within;
  return join("", ...keys.slice(0, depth));
}
