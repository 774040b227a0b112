import { isWithin, sharedDepth } from "../api/pointer";
import type { Finding, Path, Verdict } from "../api/types";
import { middleOf, type Outline } from "./outline";
import type { Spot } from "./project";

/** The part that a path in the build file is about: the one with the path itself, or the nearest. */
export function partFor(outlines: Outline[], path: Path): Outline | null {
  let best: Outline | null = null;
  let depth = 1;
  for (const outline of outlines) {
    const own = outline.part.path;
    const shared = sharedDepth(own, path);
    // The part that holds the path itself, above one that only lies near it in the file.
    const score = isWithin(path, own) ? shared + 0.5 : shared;
    if (score > depth) {
      best = outline;
      depth = score;
    }
  }
  return best;
}

export interface Place {
  /** Of the part it points at. */
  path: Path;
  spot: Spot;
  verdict: Verdict;
  findings: Finding[];
}

const kWorst: Verdict[] = ["stop", "look", "good"];

/** Where findings point: one place a part, with the worst verdict of those there. */
export function placesOf(outlines: Outline[], findings: Finding[]): Place[] {
  const byPart = new Map<string, Place>();
  for (const finding of findings) {
    const outline = partFor(outlines, finding.path);
    if (!outline) continue;
    const place = byPart.get(outline.key);
    if (!place) {
      byPart.set(outline.key, {
        path: outline.part.path,
        spot: middleOf(outline),
        verdict: finding.verdict,
        findings: [finding],
      });
    } else {
      place.findings.push(finding);
      if (kWorst.indexOf(finding.verdict) < kWorst.indexOf(place.verdict)) {
        place.verdict = finding.verdict;
      }
    }
  }
  return [...byPart.values()];
}
