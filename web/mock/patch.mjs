// A small strict JSON Patch (RFC 6902): add, replace, remove and copy; null when it does not apply.
export const keysOf = (path) =>
  path
    .split("/")
    .slice(1)
    .map((key) => key.replaceAll("~1", "/").replaceAll("~0", "~"));

export const at = (document, path) =>
  keysOf(path).reduce((here, key) => (here === null ? undefined : here?.[key]), document);

export function applied(document, patch) {
  const next = structuredClone(document);
  for (const { op: wanted, path, from, value: given } of patch) {
    const op = wanted === "copy" ? "add" : wanted;
    const value = wanted === "copy" ? structuredClone(at(next, from)) : given;
    const keys = keysOf(path);
    const last = keys.pop();
    const holder = keys.reduce((here, key) => here?.[key], next);
    if (typeof holder !== "object" || holder === null || last === undefined) return null;
    if (op !== "add" && holder[last] === undefined) return null;
    if (Array.isArray(holder)) {
      const index = last === "-" ? holder.length : Number(last);
      holder.splice(index, op === "add" ? 0 : 1, ...(op === "remove" ? [] : [value]));
    } else if (op === "remove") delete holder[last];
    else holder[last] = value;
  }
  return next;
}
