import { vi } from "vitest";
import { at } from "./pointer";
import { getState } from "./store";

/** The invented truck that the tests of entries and trials open, and what they look at in it. */
export const kBuild = "hollow_creek";
export const kHeight = "/axles/front/links/upper/axle/at/height";

export const documentNow = () => getState().answers?.document;
export const heightNow = () => at(documentNow(), kHeight);
export const casterNow = () =>
  getState().answers?.report.findings.find((f) => f.id === "caster.front");
/** Until no entry is on its way any more. */
export const taken = () =>
  vi.waitFor(() => {
    if (getState().waiting !== 0) throw new Error(`${getState().waiting} on the way`);
  });
