import { client, NoAnswer, Refusal } from "./client";
import { at, inverseOf, isWithin, keysOf } from "./pointer";
import { newestWins } from "./queue";
import { shareUnchanged } from "./share";
import { getState, kDrawn, setState, type Work } from "./store";
import type { Diagnostic, Edit, Json, Path, PoseQuestion } from "./types";

const kRetryAfter_ms = 2000;

/** Reads everything anew; what has not changed keeps its identity. */
export async function open(): Promise<void> {
  try {
    const [build, report, scene, schema] = await Promise.all([
      client.build(),
      client.report(),
      client.scene(),
      client.schema(),
    ]);
    const before = getState().answers;
    const answers = shareUnchanged(before, {
      revision: build.revision,
      file: build.file,
      document: build.document,
      units: build.units,
      report: report.report,
      scene: scene.scene,
      schema,
    });
    setState({
      answers,
      trouble: null,
      opened: before ? getState().opened : build.document,
      axle: getState().axle ?? report.report.axles[0]?.id ?? null,
    });
    askPose(getState().question);
  } catch (error) {
    setState({ trouble: wordsFor(error) });
    if (error instanceof NoAnswer) setTimeout(() => void open(), kRetryAfter_ms);
  }
}

/** Looks whether another tablet has changed the build, and reads it anew if so. */
export async function refresh(): Promise<void> {
  try {
    const build = await client.build();
    if (build.revision !== getState().answers?.revision) await open();
  } catch {
    // The next thing the builder does says so.
  }
}

const sendPose = newestWins<PoseQuestion>(async (question) => {
  try {
    const answer = await client.pose(question);
    setState({ pose: shareUnchanged(getState().pose, answer.pose) });
  } catch (error) {
    setState({ trouble: wordsFor(error) });
  }
});

/** Moves the truck: the handles at once, the picture with the answer. */
export function askPose(question: PoseQuestion): void {
  setState({ question });
  sendPose(question);
}

/** Moves these axles from where they are drawn. */
export function move(heave: Record<string, number>, roll: Record<string, number>): void {
  const { question } = getState();
  askPose({
    state: question.state,
    heave: { ...(question.heave ?? {}), ...heave },
    roll: { ...(question.roll ?? {}), ...roll },
  });
}

/** As it sits in a load state; null: as drawn. */
export function settleIn(state: string | null): void {
  askPose(state === null ? kDrawn : { state, settled: true });
}

interface Batch {
  edits: Edit[];
  undoing: boolean;
}

let sending = false;
const batches: Batch[] = [];

/** Changes values in the build; everything is answered anew. Entries made while one is on its way
 * follow in the order they were made; of several for the same field only the newest. */
export function edit(edits: Edit[], undoing = false): void {
  const waiting = batches.length > 1 ? batches.at(-1) : undefined;
  const paths = (list: Edit[]) => list.map((one) => one.path).join();
  if (waiting && !undoing && !waiting.undoing && paths(waiting.edits) === paths(edits)) {
    waiting.edits = edits;
  } else {
    batches.push({ edits, undoing });
  }
  setState({ pending: pendingTexts() });
  if (!sending) void sendBatches();
}

function pendingTexts(): Record<Path, string> {
  const all = batches.flatMap((batch) => batch.edits);
  return Object.fromEntries(all.map((one) => [one.path, "value" in one ? textOf(one.value) : ""]));
}

async function sendBatches(): Promise<void> {
  sending = true;
  for (let batch = batches[0]; batch; batch = batches[0]) {
    const done = await sendBatch(batch);
    if (done) batches.shift();
    setState({ pending: pendingTexts() });
    if (!done) await new Promise((resolve) => setTimeout(resolve, kRetryAfter_ms));
  }
  sending = false;
}

/** False: no answer, to be tried again. */
async function sendBatch({ edits, undoing }: Batch): Promise<boolean> {
  const { answers } = getState();
  if (!answers) return true;
  try {
    const answer = await client.edit(answers.revision, edits);
    const inverse = edits.map((one) => inverseOf(answers.document, one)).reverse();
    const next = {
      ...answers,
      revision: answer.revision,
      document: shareUnchanged(answers.document, answer.document),
      report: shareUnchanged(answers.report, answer.report),
      scene: shareUnchanged(answers.scene, answer.scene),
    };
    const { undo } = getState();
    const { look, stop } = answer.report.verdicts;
    setState({
      answers: next,
      trouble: null,
      refused: without(edits),
      undo: undoing ? undo : [...undo, inverse],
      said: `Answered anew: ${stop} stop, ${look} look.`,
    });
    sendPose(getState().question);
    return true;
  } catch (error) {
    if (error instanceof NoAnswer) {
      setState({ trouble: `${wordsFor(error)} What you typed is kept and tried again.` });
      return false;
    }
    if (error instanceof Refusal && error.status === 409)
      return followNewest(edits, answers.document);
    refuse(edits, error);
    return true;
  }
}

/** Another tablet was first. Its values are read; the entry is made again unless that very value is
 * what the other one changed. */
async function followNewest(edits: Edit[], seen: Json): Promise<boolean> {
  await open();
  const now = getState().answers?.document ?? null;
  const clash = edits.find(
    ({ path }) => JSON.stringify(at(seen, path)) !== JSON.stringify(at(now, path)),
  );
  if (!clash) return false;
  const other = at(now, clash.path);
  refuse(edits, null, [
    {
      code: "page.changed_elsewhere",
      path: clash.path,
      message: `Changed on another screen to ${other === undefined ? "nothing" : textOf(other)}.`,
      remedy: "Enter yours again to put it in its place.",
    },
  ]);
  return true;
}

function refuse(edits: Edit[], error: unknown, diagnostics: Diagnostic[] = []): void {
  const said = error instanceof Refusal ? (error.body.diagnostics ?? []) : diagnostics;
  const refused = { ...getState().refused };
  for (const one of edits) {
    const about = said.filter((d) => isWithin(d.path, one.path) || isWithin(one.path, d.path));
    refused[one.path] = {
      text: "value" in one ? textOf(one.value) : "",
      diagnostics: about.length > 0 ? about : said,
    };
  }
  const words = said.map((d) => `${d.message} ${d.remedy}`).join(" ") || wordsFor(error);
  setState({
    refused,
    trouble: said.length === 0 ? wordsFor(error) : null,
    said: `Not taken. ${words}`,
  });
}

/** Forgets why the entry at a path was refused. */
export function forgive(path: Path): void {
  if (path in getState().refused) setState({ refused: without([{ path, remove: true }]) });
}

function without(edits: Edit[]): Record<Path, { text: string; diagnostics: Diagnostic[] }> {
  const refused = { ...getState().refused };
  for (const { path } of edits) delete refused[path];
  return refused;
}

export function undoLast(): void {
  const { undo } = getState();
  const last = undo.at(-1);
  if (!last) return;
  setState({ undo: undo.slice(0, -1) });
  edit(last, true);
}

/** Turns the work below the picture to a thing in the build file. */
export function choose(path: Path, end: Path | null = null): void {
  const [top, id] = keysOf(path);
  const work: Work = top === "axles" || top === "tyres" ? "axles" : "weigh";
  const axle = top === "axles" && id ? id : getState().axle;
  const asked = (getState().chosen?.asked ?? 0) + 1;
  setState({ chosen: { path, end, asked }, work, axle, helpOpen: false });
}

/** Points at one end of what is chosen, as the hand moves among its fields. */
export function pointAt(end: Path): void {
  const { chosen } = getState();
  if (chosen && chosen.end !== end) setState({ chosen: { ...chosen, end } });
}

/** Opens the first of the findings at a place, or the one after that which is open. */
export function openNextOf(ids: string[]): void {
  const here = ids.indexOf(getState().finding ?? "");
  openFinding(ids[(here + 1) % ids.length] ?? null);
}

/** Opens a finding in the tray and points at its place. */
export function openFinding(id: string | null): void {
  setState({ finding: id, trayOpen: id !== null || getState().trayOpen });
}

function textOf(value: Json): string {
  return typeof value === "string" ? value : JSON.stringify(value);
}

function wordsFor(error: unknown): string {
  if (error instanceof NoAnswer || error instanceof Refusal) return error.message;
  return "This page has made a mistake of its own. Load it again; nothing typed is lost.";
}
