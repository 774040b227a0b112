import { at, join, keysOf } from "./pointer";
import type { Edit, Json, Operation, Path } from "./types";

type Holder = { [key: string]: Json };

function isHolder(value: Json | undefined): value is Holder {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** The document with one value set or taken out; whatever must hold it is made. */
function applied(document: Json, keys: readonly string[], edit: Edit): Json {
  const [key, ...rest] = keys;
  if (key === undefined) return "value" in edit ? edit.value : null;
  if (Array.isArray(document)) {
    const next = [...document];
    const index = key === "-" ? next.length : Number(key);
    if (rest.length > 0) next[index] = applied(next[index] ?? {}, rest, edit);
    else if ("value" in edit) next[index] = edit.value;
    else next.splice(index, 1);
    return next;
  }
  const next: Holder = isHolder(document) ? { ...document } : {};
  if (rest.length > 0) next[key] = applied(next[key] ?? {}, rest, edit);
  else if ("value" in edit) next[key] = edit.value;
  else delete next[key];
  return next;
}

/** The document as it will be with these edits made one after another. */
export function documentWith(document: Json, edits: Edit[]): Json {
  return edits.reduce((so_far, edit) => {
    const isGone = "remove" in edit && at(so_far, edit.path) === undefined;
    return isGone ? so_far : applied(so_far, keysOf(edit.path), edit);
  }, document);
}

/** The strict JSON Patch (RFC 6902) that makes these edits in `document`: where what must hold a
 * value is missing, the nearest missing one is added whole. */
export function patchFor(document: Json, edits: Edit[]): Operation[] {
  const patch: Operation[] = [];
  let here = document;
  for (const edit of edits) {
    const operation = operationFor(here, edit);
    if (!operation) continue;
    patch.push(operation);
    here = documentWith(here, [edit]);
  }
  return patch;
}

function operationFor(document: Json, edit: Edit): Operation | null {
  const stands = at(document, edit.path) !== undefined;
  if (!("value" in edit)) return stands ? { op: "remove", path: edit.path } : null;
  if (stands) return { op: "replace", path: edit.path, value: edit.value };
  const { path, whole } = nearestMissing(document, edit.path);
  const value = at(documentWith(document, [edit]), whole) ?? edit.value;
  if (whole === path) return { op: "add", path, value: edit.value };
  return { op: at(document, whole) === undefined ? "add" : "replace", path: whole, value };
}

/** The first place on the way to `path` where nothing stands that could hold the rest of it. */
function nearestMissing(document: Json, path: Path): { path: Path; whole: Path } {
  const keys = keysOf(path);
  let whole: Path = "";
  for (const key of keys) {
    const holder = at(document, whole);
    if (!isHolder(holder) && !Array.isArray(holder)) break;
    whole = join(whole, key);
  }
  return { path, whole };
}
