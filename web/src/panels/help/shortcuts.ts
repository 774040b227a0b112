import { useEffect } from "react";
import { redoLast, undoLast } from "../../api/changes";
import { move, settleIn } from "../../api/pose";
import { getState, setState, type View, type Work } from "../../api/store";
import { keepScheme } from "../common/scheme";
import { bumpStep } from "../motion/motion-bar";
import { clampTo, commonTravel, movedAxles } from "../motion/travel";

export interface Shortcut {
  key: string;
  does: string;
  run: () => void;
}

const kViews: View[] = ["side", "top", "end", "3d"];
const kQuarterDegree = Math.PI / 720;

function bumpBy(steps: number): void {
  const { answers, moves, question } = getState();
  if (!answers) return;
  const axles = movedAxles(answers.report, moves);
  const travel = commonTravel(axles);
  const lead = axles[0];
  if (!travel || !lead) return;
  const from = question.heave?.[lead.id] ?? 0;
  const to = clampTo(travel.droop_m, travel.bump_m, from + steps * bumpStep(answers.units));
  move(Object.fromEntries(axles.map((a) => [a.id, to])), {});
}

function rollBy(steps: number): void {
  const { answers, moves, question } = getState();
  if (!answers) return;
  const axles = movedAxles(answers.report, moves);
  const travel = commonTravel(axles);
  const lead = axles[0];
  if (!travel || !lead) return;
  const from = question.roll?.[lead.id] ?? 0;
  const to = clampTo(-travel.roll_rad, travel.roll_rad, from + steps * kQuarterDegree);
  move({}, Object.fromEntries(axles.map((a) => [a.id, to])));
}

function turnTo(work: Work): void {
  setState({ work, chosen: null, helpOpen: false });
}

function nextState(): void {
  const { answers, question } = getState();
  const ids = (answers?.report.states ?? []).filter((s) => s.settled !== null).map((s) => s.id);
  const here = question.settled ? ids.indexOf(question.state ?? "") : -1;
  settleIn(ids[here + 1] ?? null);
}

/** Every key that does something by itself, in the order they are listed. */
export const kShortcuts: Shortcut[] = [
  { key: "1", does: "Weigh", run: () => turnTo("weigh") },
  { key: "2", does: "Frame", run: () => turnTo("frame") },
  { key: "3", does: "Drivetrain", run: () => turnTo("drivetrain") },
  { key: "4", does: "Axles", run: () => turnTo("axles") },
  { key: "5", does: "Compare", run: () => turnTo("compare") },
  { key: "6", does: "Build", run: () => turnTo("build") },
  { key: "h", does: "History", run: () => turnTo("history") },
  {
    key: "f",
    does: "Findings, open and shut",
    run: () => setState({ trayOpen: !getState().trayOpen }),
  },
  {
    key: "v",
    does: "Next way of looking: side, top, end, in space",
    run: () => {
      const next = (kViews.indexOf(getState().view) + 1) % kViews.length;
      setState({ view: kViews[next] ?? "side" });
    },
  },
  { key: "[", does: "Down a sixteenth (1 mm)", run: () => bumpBy(-1) },
  { key: "]", does: "Up a sixteenth (1 mm)", run: () => bumpBy(1) },
  { key: "{", does: "Down an inch (16 mm)", run: () => bumpBy(-16) },
  { key: "}", does: "Up an inch (16 mm)", run: () => bumpBy(16) },
  { key: ",", does: "Roll a quarter of a degree, left down", run: () => rollBy(-1) },
  { key: ".", does: "Roll a quarter of a degree, left up", run: () => rollBy(1) },
  { key: "s", does: "Stand it in the next load state", run: nextState },
  { key: "0", does: "Back to drawn", run: () => settleIn(null) },
  { key: "u", does: "Undo the last entry, also Ctrl and z", run: undoLast },
  { key: "r", does: "Redo what was undone, also Ctrl and y", run: redoLast },
  {
    key: "d",
    does: "Dark or light",
    run: () => keepScheme(document.documentElement.dataset.scheme === "dark" ? "light" : "dark"),
  },
  { key: "?", does: "This list", run: () => setState({ helpOpen: !getState().helpOpen }) },
];

function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLInputElement)
    return target.type !== "range" && target.type !== "checkbox";
  return target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement;
}

/** Listens for the single keys, where nothing is being typed. */
export function useShortcuts(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (isTyping(event.target)) return;
      if (getState().page !== "bench") return;
      if (event.ctrlKey || event.metaKey) {
        const goes = { z: event.shiftKey ? redoLast : undoLast, Z: redoLast, y: redoLast }[
          event.key
        ];
        if (goes) event.preventDefault();
        goes?.();
      }
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (!getState().singleKeys && event.key !== "?") return;
      const shortcut = kShortcuts.find((s) => s.key === event.key);
      if (!shortcut) return;
      event.preventDefault();
      shortcut.run();
    };
    window.addEventListener("keydown", onKey);
    return () => window.removeEventListener("keydown", onKey);
  }, []);
}
