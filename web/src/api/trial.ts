import { client } from "./client";
import { showPending } from "./entries";
import { patchFor } from "./patch";
import { newestWins } from "./queue";
import { shareUnchanged } from "./share";
import { type Answers, getState, setState } from "./store";
import { reportWith, sameAsShown } from "./trial-report";
import type { Edit, ToldWork } from "./types";

/** What stood before anything was tried out. */
let before: Answers | null = null;
let wanted: Edit[] = [];

/** The program works on one while the page draws another. */
const kAtOnce = 2;
let asked = 0;
let shown = 0;

const send = newestWins<Edit[]>(async (edits) => {
  const { place, trying, axle } = getState();
  if (!place || !before || trying === null) return;
  asked++;
  const number = asked;
  try {
    const { trial, scene } = await client.trial(
      place,
      { work: trying, axle },
      patchFor(before.document, edits),
    );
    const { answers } = getState();
    if (!answers || !before || wanted.length === 0 || number < shown) return;
    shown = number;
    setState({
      answers: {
        ...answers,
        report: shareUnchanged(answers.report, reportWith(before.report, trial), sameAsShown),
        scene: shareUnchanged(answers.scene, scene),
      },
    });
  } catch {
    // A place that can't be has no answer: the last one stays until the hand moves on.
  }
}, kAtOnce);

const kTold: ToldWork[] = ["weigh", "axles", "frame", "drivetrain"];

/** The work of the open sheet; where that tells no numbers, what is soonest answered. */
function workTried(): ToldWork {
  const { work } = getState();
  return kTold.find((one) => one === work) ?? "weigh";
}

/** Answers as if these edits were made, and keeps nothing. */
export function tryOut(edits: Edit[]): void {
  before ??= getState().answers;
  wanted = edits;
  if (getState().trying === null) setState({ trying: workTried() });
  showPending(edits);
  send(edits);
}

/** The edits that are tried out will be made: their answer stays until the real one comes. */
export function trialKept(): void {
  wanted = [];
}

/** Back to what stands. */
export function endTrial(): void {
  const { answers } = getState();
  if (before && answers && answers.etag === before.etag) {
    setState({ answers: { ...answers, report: before.report, scene: before.scene } });
  }
  forgetTrial();
  showPending();
}

/** Another answer has taken the place of what was tried. */
export function forgetTrial(): void {
  before = null;
  wanted = [];
  if (getState().trying !== null) setState({ trying: null });
}
