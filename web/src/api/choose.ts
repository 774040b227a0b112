import { keysOf } from "./pointer";
import { getState, setState, type Work } from "./store";
import type { Path } from "./types";

const kOnAxles = ["axles", "tyres", "limits"];
const kOnBuild = ["name", "notice", "units"];

/** The work whose sheet holds what stands at a path. */
export function workOf(path: Path): Work {
  const top = keysOf(path)[0] ?? "";
  if (top === "frame" || top === "drivetrain") return top;
  if (kOnAxles.includes(top)) return "axles";
  return kOnBuild.includes(top) ? "build" : "weigh";
}

/** Turns the work below the picture to a thing in the build file. */
export function choose(path: Path, end: Path | null = null): void {
  const [top, id] = keysOf(path);
  const axle = top === "axles" && id ? id : getState().axle;
  const asked = (getState().chosen?.asked ?? 0) + 1;
  setState({ chosen: { path, end, asked }, work: workOf(path), axle, helpOpen: false });
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
