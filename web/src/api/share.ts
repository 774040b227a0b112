/**
 * The new answer with every part that did not change taken from the old one, so that a panel whose
 * part is the same object need not be drawn again.
 * @param isSame  Whether two values count as the same one.
 */
export function shareUnchanged<T>(
  before: unknown,
  after: T,
  isSame: (before: unknown, after: unknown) => boolean = Object.is,
): T {
  if (isSame(before, after)) return before as T;
  if (typeof before !== "object" || typeof after !== "object") return after;
  if (before === null || after === null) return after;
  if (Array.isArray(after)) {
    if (!Array.isArray(before)) return after;
    let same = before.length === after.length;
    const mixed = after.map((item, i) => {
      const shared = shareUnchanged(before[i], item, isSame);
      if (shared !== before[i]) same = false;
      return shared;
    });
    return (same ? before : mixed) as T;
  }
  if (Array.isArray(before)) return after;
  const old = before as Record<string, unknown>;
  const fresh = after as Record<string, unknown>;
  const keys = Object.keys(fresh);
  let same = Object.keys(old).length === keys.length;
  const mixed: Record<string, unknown> = {};
  for (const key of keys) {
    mixed[key] = shareUnchanged(old[key], fresh[key], isSame);
    if (!(key in old) || mixed[key] !== old[key]) same = false;
  }
  return (same ? before : mixed) as T;
}
