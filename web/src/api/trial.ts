import { client } from "./client";
import { edit, showPending } from "./entries";
import { patchFor } from "./patch";
import { newestWins } from "./queue";
import { shareUnchanged } from "./share";
import type { Change } from "./shop-types";
import { type Answers, getState, setState } from "./store";
import { reportWith, sameAsShown } from "./trial-report";
import type { Edit, ToldWork } from "./types";

/** What stood before anything was tried out. */
let before: Answers | null = null;

/** The program works on one while the page draws another. */
const kAtOnce = 2;
let asked = 0;
let shown = 0;

/** Values set or taken out, or a change that the program makes by itself. */
export type Tried = Edit[] | Change;

const send = newestWins<Tried>(async (tried) => {
  const { place, trying, axle } = getState();
  const from = before;
  if (!place || !from || trying === null) return;
  asked++;
  const number = asked;
  try {
    const { trial, scene } = await client.trial(
      place,
      { work: trying, axle },
      Array.isArray(tried) ? patchFor(from.document, tried) : tried,
    );
    const { answers } = getState();
    // The edit's own answer, or another trial, may have come first.
    if (!answers || before !== from || number < shown) return;
    shown = number;
    setState({
      answers: {
        ...answers,
        report: shareUnchanged(answers.report, reportWith(from.report, trial), sameAsShown),
        scene: shareUnchanged(answers.scene, scene),
      },
    });
  } catch {
    // A place that can't be has no answer: the last one stays until the hand moves on.
  }
}, kAtOnce);

const kTold: ToldWork[] = ["weigh", "axles", "frame", "drivetrain"];

/** The work of the open sheet, where it is one that the program tells of. */
function workShown(): ToldWork | null {
  const { work } = getState();
  return kTold.find((one) => one === work) ?? null;
}

/** Answers as if this were changed, and keeps nothing. */
export function tryOut(tried: Tried): void {
  before ??= getState().answers;
  // Where the open sheet tells no numbers, what is soonest answered: it is for the picture.
  if (getState().trying === null) setState({ trying: workShown() ?? "weigh" });
  showPending(Array.isArray(tried) ? tried : []);
  send(tried);
}

/** Makes these edits. What the open sheet shows of them is answered first, for it takes the least; all
 * else with the edits' own answer. */
export function editShown(edits: Edit[]): void {
  const { waiting, trying } = getState();
  // A trial is made on what the program has taken: it would leave out an entry that is on its way.
  if (workShown() !== null && waiting === 0 && trying === null) tryOut(edits);
  edit(edits);
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
  if (getState().trying !== null) setState({ trying: null });
}
