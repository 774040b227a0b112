import type { Work } from "../api/store";
import type { Part } from "../api/types";

type Kind = Part["kind"];

const kMasses: Kind[] = ["box", "cylinder", "ball"];
/** What each work is about. */
const kOwn: Partial<Record<Work, Kind[]>> = {
  weigh: [...kMasses, "cg", "hitch"],
  axles: ["bar", "arm", "coil", "leaf", "shock", "stop"],
  frame: ["rail", "plate", "crossmember"],
  drivetrain: ["case", "shaft", "mount", "gap"],
};
/** What shows on every work's picture where one is. */
const kAlways: Kind[] = ["tyre", "axle"];

/** Whether a part is only a quiet outline in the picture of a work. */
export function isAside(kind: Kind, work: Work): boolean {
  const own = kOwn[work];
  if (!own) return kMasses.includes(kind);
  return !own.includes(kind) && !kAlways.includes(kind);
}
