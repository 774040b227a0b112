import { at, join, keysOf, parentOf } from "../../api/pointer";
import type { Edit, Json, Path } from "../../api/types";

/** What may stand at one place in the build file, as its published schema tells it. */
export type Kind =
  | { kind: "quantity"; dimension: string }
  | { kind: "text" }
  | { kind: "count"; choices: number[] }
  | { kind: "flag" }
  /** `usual`: what it is when it is left out, if that is told. */
  | { kind: "word"; choices: string[]; usual: string | null }
  | { kind: "reference"; target: string }
  | { kind: "references"; target: string }
  | { kind: "thing"; node: Node }
  /** `one`: what it holds several of. `names`: the things whose ids are its keys; null: it gives its
   * own. */
  | { kind: "map"; node: Node; one: string; names: string | null }
  | { kind: "list"; node: Node; one: string };

type Node = { [key: string]: Json };

export interface Member {
  key: string;
  doc: string;
  kind: Kind;
  /** Of the thing's words the one it goes with, and the values of that; null: it always belongs. */
  when: { key: string; values: string[] } | null;
}

function isNode(value: Json | undefined): value is Node {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/** Follows references and drops the "or null" that every optional value has. */
function plain(schema: Node, node: Node): Node {
  const any = node.anyOf;
  if (Array.isArray(any) && any.some((n) => isNode(n) && n.type === "null")) {
    const rest = any.filter((n) => isNode(n) && n.type !== "null");
    const { anyOf: _, ...others } = node;
    const first = rest[0];
    if (rest.length === 1 && isNode(first)) return plain(schema, { ...others, ...first });
  }
  const ref = node.$ref;
  if (typeof ref !== "string") return node;
  const name = ref.split("/").at(-1) ?? "";
  const defs = schema.$defs;
  const target = isNode(defs) ? defs[name] : undefined;
  const { $ref: _, ...others } = node;
  return { ...(isNode(target) ? plain(schema, target) : {}), ...others };
}

/** What the schema calls the thing that may stand here. */
function nameOf(node: Json | undefined): string {
  if (!isNode(node)) return "";
  if (typeof node.$ref === "string") return node.$ref.split("/").at(-1) ?? "";
  return Array.isArray(node.anyOf) ? nameOf(node.anyOf[0]) : "";
}

function typeOf(node: Node): string {
  const type = Array.isArray(node.type) ? node.type.find((t) => t !== "null") : node.type;
  return typeof type === "string" ? type : "";
}

function kindOf(schema: Node, given: Node): Kind | null {
  const node = plain(schema, given);
  if (typeof node["x-dimension"] === "string") {
    return { kind: "quantity", dimension: node["x-dimension"] };
  }
  if (typeof node["x-reference"] === "string") {
    return { kind: "reference", target: node["x-reference"] };
  }
  const choices = Array.isArray(node.enum) ? node.enum.filter((c) => c !== null) : [];
  switch (typeOf(node)) {
    case "boolean":
      return { kind: "flag" };
    case "integer":
      return { kind: "count", choices: choices.map(Number) };
    case "string":
      if (choices.length === 0) return { kind: "text" };
      return {
        kind: "word",
        choices: choices.map(String),
        usual: typeof node.default === "string" ? node.default : null,
      };
    case "array": {
      const items = isNode(node.items) ? plain(schema, node.items) : {};
      const target = items["x-reference"];
      if (typeof target === "string") return { kind: "references", target };
      return { kind: "list", node: items, one: nameOf(node.items) };
    }
    case "object":
      if (isNode(node.properties)) return { kind: "thing", node };
      if (isNode(node.additionalProperties)) {
        const names = isNode(node.propertyNames) ? node.propertyNames["x-reference"] : null;
        return {
          kind: "map",
          node: plain(schema, node.additionalProperties),
          one: nameOf(node.additionalProperties),
          names: typeof names === "string" ? names : null,
        };
      }
      return null;
    default:
      return null;
  }
}

/** The schema of what stands at a path; null when nothing may stand there. */
function nodeAt(schema: Json, path: Path): Node | null {
  if (!isNode(schema)) return null;
  let node: Node = schema;
  for (const key of keysOf(path)) {
    const kind = kindOf(schema, node);
    if (kind?.kind === "thing") {
      const properties = kind.node.properties;
      const next = isNode(properties) ? properties[key] : undefined;
      if (!isNode(next)) return null;
      node = plain(schema, next);
    } else if (kind?.kind === "map" || kind?.kind === "list") {
      node = kind.node;
    } else {
      return null;
    }
  }
  return node;
}

export function kindAt(schema: Json, path: Path): Kind | null {
  const node = nodeAt(schema, path);
  return node && isNode(schema) ? kindOf(schema, node) : null;
}

/** What the thing at a path may hold, in the order a form shows it. */
export function membersOf(schema: Json, path: Path): Member[] {
  const kind = kindAt(schema, path);
  if (kind?.kind !== "thing" || !isNode(schema)) return [];
  const properties = kind.node.properties;
  if (!isNode(properties)) return [];
  return Object.entries(properties).flatMap(([key, given]) => {
    if (!isNode(given)) return [];
    const own = kindOf(schema, given);
    const doc = typeof given.description === "string" ? given.description : "";
    return own ? [{ key, doc, kind: own, when: whenOf(given) }] : [];
  });
}

function whenOf(node: Node): Member["when"] {
  const [given] = isNode(node["x-when"]) ? Object.entries(node["x-when"]) : [];
  return given && Array.isArray(given[1]) ? { key: given[0], values: given[1].map(String) } : null;
}

/** Whether a member goes with what its thing is, such as a size with the shape. */
function belongs({ when }: Member, thing: Json | undefined): boolean {
  const word = when && at(thing, join("", when.key));
  return typeof word !== "string" || when === null || when.values.includes(word);
}

/** Members of the thing at a path that a form shows: those that go with it as it stands, and what is
 * given though it does not. */
export function membersShown(schema: Json, path: Path, thing: Json | undefined): Member[] {
  return membersOf(schema, path).filter((m) => belongs(m, thing) || isGiven(thing, m));
}

function isGiven(thing: Json | undefined, { key }: Member): boolean {
  const value = at(thing, join("", key));
  return value !== undefined && value !== null;
}

/** What a new thing at a path can't do without: the first of the choices that none of its like has. */
export function requiredAt(schema: Json, path: Path, like: Json[] = []): { [key: string]: Json } {
  const kind = kindAt(schema, path);
  const required =
    kind?.kind === "thing" && Array.isArray(kind.node.required) ? kind.node.required : [];
  return Object.fromEntries(
    membersOf(schema, path).flatMap((m) => {
      if (!required.includes(m.key)) return [];
      const choices = m.kind.kind === "word" || m.kind.kind === "count" ? m.kind.choices : [];
      const free = choices.find((c) => !like.some((one) => at(one, `/${m.key}`) === c));
      const choice = free ?? choices[0];
      return choice === undefined ? [] : [[m.key, choice]];
    }),
  );
}

/** The edits that put a value at a path, with what the things that must be made for it can't do
 * without, and without what does not go with it. */
export function editsFor(schema: Json, document: Json, path: Path, value: Json): Edit[] {
  const edits: Edit[] = [];
  const keys = keysOf(path);
  for (let depth = 1; depth < keys.length; depth++) {
    const holder = join("", ...keys.slice(0, depth));
    const stands = at(document, holder);
    if (stands !== undefined && stands !== null) continue;
    for (const [key, choice] of Object.entries(requiredAt(schema, holder))) {
      if (key !== keys[depth]) edits.push({ path: join(holder, key), value: choice });
    }
  }
  const holder = parentOf(path);
  const thing = at(document, holder);
  const after = { ...(isNode(thing) ? thing : {}), [keys.at(-1) ?? ""]: value };
  const stray = membersOf(schema, holder).filter(
    (m) => m.when?.key === keys.at(-1) && !belongs(m, after) && isGiven(thing, m),
  );
  const removed = stray.map((m): Edit => ({ path: join(holder, m.key), remove: true }));
  return [...edits, ...removed, { path, value }];
}
