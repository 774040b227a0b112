/** Whether two values count as the same one. */
export type IsSame = (before: unknown, after: unknown) => boolean;

type Keyed = Record<string, unknown>;

/**
 * The new answer with every part that did not change taken from the old one, so that a panel whose
 * part is the same object need not be drawn again.
 */
export function shareUnchanged<T>(before: unknown, after: T, isSame: IsSame = Object.is): T {
  return share(before, after, isSame) as T;
}

function share(before: unknown, after: unknown, isSame: IsSame): unknown {
  if (before === after || isSame(before, after)) return before;
  if (typeof before !== "object" || typeof after !== "object") return after;
  if (before === null || after === null) return after;
  if (Array.isArray(after)) return Array.isArray(before) ? shareList(before, after, isSame) : after;
  return Array.isArray(before) ? after : shareKeyed(before as Keyed, after as Keyed, isSame);
}

function shareList(before: unknown[], after: unknown[], isSame: IsSame): unknown[] {
  let same = before.length === after.length;
  let mixed = after;
  for (let i = 0; i < after.length; i++) {
    const old = before[i];
    const item = after[i];
    // Most are numbers of curves: those that are alike cost no call.
    if (old === item) continue;
    const shared = share(old, item, isSame);
    if (shared !== old) same = false;
    if (shared === item) continue;
    if (mixed === after) mixed = [...after];
    mixed[i] = shared;
  }
  return same ? before : mixed;
}

function shareKeyed(before: Keyed, after: Keyed, isSame: IsSame): Keyed {
  const keys = Object.keys(after);
  let same = Object.keys(before).length === keys.length;
  let mixed = after;
  for (const key of keys) {
    const old = before[key];
    const item = after[key];
    if (old === item && old !== undefined) continue;
    const shared = share(old, item, isSame);
    if (shared !== old || !(key in before)) same = false;
    if (shared === item) continue;
    if (mixed === after) mixed = { ...after };
    mixed[key] = shared;
  }
  return same ? before : mixed;
}
