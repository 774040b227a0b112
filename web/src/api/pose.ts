import { client } from "./client";
import { newestWins } from "./queue";
import { shareUnchanged } from "./share";
import { getState, kDrawn, setState } from "./store";
import type { PoseQuestion } from "./types";

/** Metres, and shares of a turn: less than this is what solving leaves over, and no movement. */
const kStill = 1e-9;

const standsStill = (before: unknown, now: unknown) =>
  typeof before === "number" && typeof now === "number" && Math.abs(before - now) < kStill;

const send = newestWins<PoseQuestion>(async (question) => {
  const { place } = getState();
  if (!place) return;
  try {
    const { pose } = await client.pose(place, question);
    const before = getState().pose;
    const bodies = shareUnchanged(before?.bodies, pose.bodies, standsStill);
    setState({ pose: shareUnchanged(before, { ...pose, bodies }) });
  } catch {
    // Where the truck stands is a way of looking: the next answer shows it.
  }
});

/** Asks again how the truck stands, after an edit. */
export function poseAnew(): void {
  send(getState().question);
}

/** Moves the truck: the handles at once, the picture with the answer. */
export function askPose(question: PoseQuestion): void {
  setState({ question });
  send(question);
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
