import { addressOf, goTo } from "./address";
import { client, NoAnswer, Refusal, type Where, whenShutOut } from "./client";
import { entriesTaken, sendNow, takeUpKept } from "./entries";
import { listen } from "./events";
import { poseAnew } from "./pose";
import { shareUnchanged } from "./share";
import type { BuildAnswer, ChangeAnswer } from "./shop-types";
import { type Answers, getState, kNoBuild, setState } from "./store";
import { forgetTrial } from "./trial";
import type { Json, Report, Scene } from "./types";
import { screen } from "./who";
import { wordsFor } from "./words";

const kRetryAfter_ms = 2000;

let hush: (() => void) | null = null;

/** Finds out where the address leads, and goes on following it. */
export async function begin(): Promise<void> {
  whenShutOut(() => setState({ page: "door" }));
  try {
    const door = await client.door();
    if (door.needed && !door.paired) {
      setState({ page: "door", trouble: null });
      return;
    }
    setState({ trouble: null });
    await followAddress();
  } catch (error) {
    setState({ trouble: wordsFor(error) });
    if (error instanceof NoAnswer) setTimeout(() => void begin(), kRetryAfter_ms);
  }
}

export async function followAddress(): Promise<void> {
  const address = addressOf(window.location.hash);
  // What was entered goes first; without an answer it stays in the tablet.
  await entriesTaken();
  if (address?.page === "bench") return openBuild(address);
  leaveBuild();
  const shop = await client.shop();
  const builds = shop.builds.filter((b) => !b.archived);
  const only = builds.length === 1 ? builds[0] : undefined;
  setState({ shop });
  if (address === null && only) {
    // The address names the build from now on, without a step back to nothing.
    window.location.replace(`#${encodeURIComponent(only.id)}`);
  } else setState({ page: address?.page ?? "shop" });
}

export async function readShop(): Promise<void> {
  try {
    setState({ shop: await client.shop() });
  } catch (error) {
    setState({ trouble: wordsFor(error) });
  }
}

function leaveBuild(): void {
  hush?.();
  hush = null;
  setState({ ...kNoBuild, place: null });
}

/** Opens a build or one of its variants. */
export async function openBuild({ build, variant }: Where): Promise<void> {
  const { place } = getState();
  if (place?.build !== build) leaveBuild();
  setState({ place: { build, variant }, page: "bench", refused: {}, clashes: {} });
  forgetTrial();
  await refresh(true);
  const here = getState().place;
  if (!getState().answers || here?.build !== build) return;
  hush ??= listen(here, {
    head: (event) => {
      if (event.etag !== getState().answers?.etag && event.screen !== screen) void refresh();
    },
    heard: (isHeard) => setState({ offline: !isHeard }),
    // An entry may have been answered while the stream was cut: that brought no other's edits.
    again: () => void refresh().then(sendNow),
  });
  await takeUpKept(build);
}

/** How often a build is read that changes meanwhile, before it is said so. */
const kReadings = 8;

/** All answers about one and the same state: read again while others change it in between. */
async function read(where: Where): Promise<Omit<Answers, "schema">> {
  for (let i = 0; i < kReadings; i++) {
    const all = await Promise.all([
      client.build(where),
      client.report(where),
      client.scene(where),
      where.variant === null ? null : client.build({ ...where, variant: null }),
    ]);
    const [build, report, scene, base] = all;
    if (all.every((one) => one === null || one.etag === build.etag))
      return answersFrom(build, report.report, scene.scene, base);
  }
  throw new NoAnswer("The build changes faster than it can be read.");
}

function answersFrom(
  build: BuildAnswer,
  report: Report,
  scene: Scene,
  base: BuildAnswer | null,
): Omit<Answers, "schema"> {
  return {
    ...headOf(build),
    document: build.document,
    base: (base ?? build).document,
    report,
    scene,
  };
}

function headOf(build: BuildAnswer) {
  return {
    etag: build.etag,
    entry: build.entry,
    file: build.file,
    units: build.units,
    canUndo: build.can_undo,
    canRedo: build.can_redo,
    fault: build.fault,
  };
}

let schema: Promise<Json> | null = null;

/** What may stand in a build file; asked for once. */
function readSchema(): Promise<Json> {
  schema ??= client.schema().catch((error: unknown) => {
    schema = null;
    throw error;
  });
  return schema;
}

/** Reads everything anew; what has not changed keeps its identity. */
export async function refresh(isOpening = false): Promise<void> {
  const { place } = getState();
  if (!place) return;
  try {
    const [schema, fresh] = await Promise.all([readSchema(), read(place)]);
    const now = getState().place;
    if (now?.build !== place.build || now.variant !== place.variant) return;
    const { answers: before, opened, axle } = getState();
    forgetTrial();
    const answers = shareUnchanged(before, { ...fresh, schema });
    const isNew = isOpening || before === null;
    setState({
      answers,
      trouble: null,
      offline: false,
      opened: place.variant !== null ? answers.base : isNew ? answers.document : opened,
      axle: answers.report.axles.some((a) => a.id === axle)
        ? axle
        : (answers.report.axles[0]?.id ?? null),
    });
    poseAnew();
  } catch (error) {
    if (error instanceof Refusal && error.status === 404 && !getState().answers) {
      setState({ trouble: error.message });
      goTo({ page: "shop" });
      return;
    }
    if (getState().answers && error instanceof NoAnswer) setState({ offline: true });
    else setState({ trouble: wordsFor(error) });
    if (error instanceof NoAnswer && isOpening) {
      setTimeout(() => void openBuild(place), kRetryAfter_ms);
    }
  }
}

/** Lays the answer to a change over what is shown. */
export function takeAnswer(answer: ChangeAnswer): void {
  const { answers, place } = getState();
  if (!answers) return;
  forgetTrial();
  const document = shareUnchanged(answers.document, answer.document);
  const { look, stop } = answer.report.verdicts;
  const units = (document as { units?: Json })?.units;
  const unitsBefore = (answers.document as { units?: Json })?.units;
  setState({
    answers: {
      ...answers,
      etag: answer.etag,
      entry: answer.entry,
      document,
      base: place?.variant === null ? document : answers.base,
      report: shareUnchanged(answers.report, answer.report),
      scene: shareUnchanged(answers.scene, answer.scene),
      canUndo: answer.can_undo,
      canRedo: answer.can_redo,
      fault: null,
    },
    trouble: null,
    said: `Answered anew: ${stop} stop, ${look} look.`,
  });
  poseAnew();
  if (place && place.variant !== null) void readBase(place);
  // What a text is written in has changed: only the whole answer tells the factors.
  if (units !== unitsBefore) void refresh();
}

/** The build's own document has its variant's changes in it, and so is another after each. */
async function readBase(place: Where): Promise<void> {
  try {
    const { document } = await client.build({ ...place, variant: null });
    const { answers } = getState();
    if (answers && getState().place === place) {
      setState({ answers: { ...answers, base: shareUnchanged(answers.base, document) } });
    }
  } catch {
    // The next answer brings it.
  }
}
