import { join } from "./pointer";
import type { Json, Path } from "./types";

/** Paths of the values that differ between two documents. */
export function changedPaths(
  before: Json | undefined,
  after: Json | undefined,
  path: Path = "",
): Path[] {
  if (before === after) return [];
  if (isThing(before) && isThing(after)) {
    const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
    return [...keys].flatMap((key) => changedPaths(before[key], after[key], join(path, key)));
  }
  if (Array.isArray(before) && Array.isArray(after) && before.length === after.length) {
    return after.flatMap((item, i) => changedPaths(before[i], item, join(path, i)));
  }
  return JSON.stringify(before) === JSON.stringify(after) ? [] : [path];
}

function isThing(value: Json | undefined): value is { [key: string]: Json } {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
