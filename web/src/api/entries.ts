import { capital } from "../format/text";
import { client, NoAnswer, Refusal, type Where } from "./client";
import { type Entry, forget, keep, keptFor } from "./kept";
import { documentWith, patchFor } from "./patch";
import { at, isWithin } from "./pointer";
import { refresh, takeAnswer } from "./session";
import { getState, type State, setState } from "./store";
import { endTrial } from "./trial";
import { inTurn } from "./turns";
import type { Diagnostic, Edit, Json, Path } from "./types";
import { whoIsHere } from "./who";
import { textOf, wordsFor } from "./words";

const kRetryAfter_ms = 2000;
/** An entry that was answered but could not be taken now is tried again after this. */
const kTryHeldAfter_ms = 10_000;
/** Refusals of the entry itself: the same would be said of it every time. */
const kForGood = [400, 404, 413, 422];

let queue: Entry[] = [];
/** Those that have been sent: without an answer they may have been taken all the same. */
const tried = new WeakSet<Entry>();
/** Refused for now, as by a full disk: kept, and no others wait for them. */
let held: Entry[] = [];
let heldTimer: ReturnType<typeof setTimeout> | undefined;
let pumping = false;
let wake: (() => void) | null = null;
const waiters: (() => void)[] = [];
let made = 0;

function idNow(): string {
  made++;
  return `${Date.now().toString(36).padStart(9, "0")}.${String(made).padStart(6, "0")}`;
}

const sameWhere = (entry: Entry, where: Where | null) =>
  entry.build === where?.build && entry.variant === where.variant;

/** The document that an entry for this place is made on. */
function documentAt(where: Where): Json {
  const { answers, place } = getState();
  if (!answers) return null;
  return where.variant === place?.variant ? answers.document : answers.base;
}

/** The same, also for a variant that is not open any more. */
async function documentOf(where: Where): Promise<Json> {
  const { variant } = getState().place ?? {};
  if (where.variant === null || where.variant === variant) return documentAt(where);
  return (await client.build(where)).document;
}

function seenIn(document: Json, path: Path): string {
  const value = at(document, path);
  return value === undefined ? "" : JSON.stringify(value);
}

/** Changes values in the build; everything is answered anew. Entries made while one is on its way, or
 * may have been taken without an answer, follow in the order they were made; of several for the same
 * field only the newest. */
export function edit(edits: Edit[]): void {
  const { place } = getState();
  if (place) enter(place, edits);
}

/** Changes the build itself while one of its variants is open. */
export function editBase(edits: Edit[]): void {
  const { place } = getState();
  if (place) enter({ ...place, variant: null }, edits);
}

function enter(where: Where, edits: Edit[]): void {
  takeUpHeld();
  const last = queue.at(-1);
  const waiting = last && !tried.has(last) ? last : undefined;
  const paths = (list: Edit[]) => list.map((one) => one.path).join();
  if (waiting && sameWhere(waiting, where) && paths(waiting.edits) === paths(edits)) {
    waiting.edits = edits;
    void keep(waiting);
  } else {
    // Made on what the builder sees: the document with what is already on its way.
    const before = queue.filter((e) => sameWhere(e, where)).flatMap((e) => e.edits);
    const document = documentWith(documentAt(where), before);
    const seen = Object.fromEntries(edits.map((e) => [e.path, seenIn(document, e.path)]));
    const entry = { id: idNow(), ...where, edits, seen };
    queue.push(entry);
    void keep(entry);
  }
  const clashes = { ...getState().clashes };
  for (const { path } of edits) {
    const clash = clashes[path];
    if (clash) void forget(clash.entry.id);
    delete clashes[path];
  }
  setState({ clashes, askInitials: getState().askInitials || whoIsHere() === null });
  showPending();
  void pump();
}

/** Takes up what this tablet still held for a build when it was closed or loaded again. */
export async function takeUpKept(build: string): Promise<void> {
  const stored = await keptFor(build);
  const mine = [...held, ...queue].filter((e) => e.build === build);
  const known = new Set(mine.map((e) => e.id));
  held = [];
  queue = [...mine, ...stored.filter((e) => !known.has(e.id))].sort(byAge);
  showPending();
  if (queue.length > 0) void pump();
}

/** The program is heard again: what waits is sent at once. */
export function sendNow(): void {
  takeUpHeld();
  wake?.();
  void pump();
}

const byAge = (a: Entry, b: Entry) => (a.id < b.id ? -1 : 1);

/** What was refused for now goes again, in the order it was entered. */
function takeUpHeld(): void {
  clearTimeout(heldTimer);
  if (held.length === 0) return;
  queue = [...held, ...queue].sort(byAge);
  held = [];
}

function hold(entry: Entry): void {
  held = [...held, entry];
  clearTimeout(heldTimer);
  heldTimer = setTimeout(sendNow, kTryHeldAfter_ms);
}

/** Resolves when nothing waits any more; false: the program does not answer. */
export async function entriesTaken(): Promise<boolean> {
  while (queue.length > 0) {
    if (getState().offline) return false;
    await new Promise<void>((resolve) => waiters.push(resolve));
  }
  return true;
}

/** Values that are tried out, shown in their fields like those on their way. */
export function showPending(tried: Edit[] = []): void {
  const { place } = getState();
  const edits = [...queue.filter((e) => sameWhere(e, place)).flatMap((e) => e.edits), ...tried];
  const pending = Object.fromEntries(
    edits.map((one) => [one.path, "value" in one ? one.value : null]),
  );
  setState({ pending, waiting: queue.length + held.length });
}

async function pump(): Promise<void> {
  if (pumping) return;
  pumping = true;
  for (let entry = queue[0]; entry; entry = queue[0]) {
    const one = entry;
    tried.add(one);
    const outcome = await inTurn(() => send(one));
    if (outcome === "done" || outcome === "held") queue = queue.filter((e) => e !== one);
    if (outcome === "held") hold(one);
    showPending();
    for (const waiter of waiters.splice(0)) waiter();
    if (outcome === "later") {
      await new Promise<void>((resolve) => {
        wake = resolve;
        setTimeout(resolve, kRetryAfter_ms);
      });
      wake = null;
    }
  }
  pumping = false;
}

/** Later: there was no answer. Again: on the newest state, which has been read. Held: not now, but
 * perhaps when something else has been put right. */
type Outcome = "done" | "again" | "later" | "held";

async function send(entry: Entry): Promise<Outcome> {
  const { answers, place } = getState();
  if (!answers || entry.build !== place?.build) return "done";
  const where = { build: entry.build, variant: entry.variant };
  let document: Json;
  try {
    document = await documentOf(where);
  } catch (error) {
    return notTaken(entry, error);
  }
  if (clashed(entry, document)) {
    endTrial();
    return "done";
  }
  const patch = patchFor(document, entry.edits);
  if (patch.length === 0) {
    endTrial();
    void forget(entry.id);
    return "done";
  }
  try {
    const answer = await client.patch(where, answers.etag, patch);
    void forget(entry.id);
    setState({ refused: without(entry.edits), offline: false });
    if (where.variant === place.variant) takeAnswer(answer);
    else await refresh();
    return "done";
  } catch (error) {
    return notTaken(entry, error);
  }
}

async function notTaken(entry: Entry, error: unknown): Promise<Outcome> {
  endTrial();
  if (error instanceof NoAnswer) {
    setState({ offline: true });
    return "later";
  }
  if (error instanceof Refusal && error.status === 412) {
    await refresh();
    const newest = await documentOf(entry).catch(() => null);
    if (newest === null) return "later";
    if (clashed(entry, newest)) return "done";
    // Not the very values: what holds them is another. The newest is what it is made on now.
    entry.seen = Object.fromEntries(entry.edits.map((e) => [e.path, seenIn(newest, e.path)]));
    return getState().offline ? "later" : "again";
  }
  const isForGood = error instanceof Refusal && kForGood.includes(error.status);
  refuse(entry.edits, error, isForGood ? "" : "It is kept on this screen and tried again.");
  if (!isForGood) return "held";
  void forget(entry.id);
  return "done";
}

/** Whether another screen has changed what this entry would; then the builder is asked. */
function clashed(entry: Entry, document: Json): boolean {
  const clash = entry.edits.find((e) => seenIn(document, e.path) !== entry.seen[e.path]);
  if (!clash) return false;
  const wanted = "value" in clash ? clash.value : undefined;
  if (JSON.stringify(at(document, clash.path)) === JSON.stringify(wanted)) {
    // Both want the same.
    entry.seen[clash.path] = seenIn(document, clash.path);
    return clashed(entry, document);
  }
  const told = (value: Json | undefined) => (value === undefined ? "nothing" : textOf(value));
  const theirs = told(at(document, clash.path));
  const yours = told(wanted);
  const { clashes } = getState();
  // The newer entry of this screen for the same value is the one to choose from.
  const older = clashes[clash.path]?.entry;
  if (older && older.id !== entry.id) void forget(older.id);
  setState({
    clashes: { ...clashes, [clash.path]: { entry, theirs, yours } },
    said: `Changed on another screen too: theirs ${theirs}, yours ${yours}.`,
  });
  return true;
}

/** Ends a clash one way or the other. */
export function settleClash(path: Path, take: "theirs" | "yours"): void {
  const { [path]: clash, ...clashes } = getState().clashes;
  if (!clash) return;
  setState({ clashes });
  void forget(clash.entry.id);
  if (take === "yours") enter(clash.entry, clash.entry.edits);
}

function refuse(edits: Edit[], error: unknown, hope: string): void {
  const said: Diagnostic[] = error instanceof Refusal ? (error.body.diagnostics ?? []) : [];
  const refused = { ...getState().refused };
  for (const one of edits) {
    const about = said.filter((d) => isWithin(d.path, one.path) || isWithin(one.path, d.path));
    refused[one.path] = {
      text: "value" in one ? textOf(one.value) : "",
      diagnostics: about.length > 0 ? about : said,
    };
  }
  const isField = edits.every((e) => "value" in e && typeof e.value === "string");
  const why = said.map((d) => `${d.message} ${d.remedy}`).join(" ") || capital(wordsFor(error));
  const words = hope === "" ? why : `${why.replace(/[.]?$/, ".")} ${hope}`;
  setState({
    refused,
    trouble: said.length === 0 || !isField || hope !== "" ? words : null,
    said: `Not taken. ${words}`,
  });
}

/** Forgets why the entry at a path was refused. */
export function forgive(path: Path): void {
  if (path in getState().refused) setState({ refused: without([{ path, remove: true }]) });
}

function without(edits: Edit[]): State["refused"] {
  const refused = { ...getState().refused };
  for (const { path } of edits) delete refused[path];
  return refused;
}
