import { parentOf } from "../api/pointer";
import type { Work } from "../api/store";
import type { Finding, Path, Verdict } from "../api/types";
import { middleOf, type Outline } from "./outline";
import type { Spot } from "./project";

/** Finds the part that a path in the build file is about: the one with the path itself, or the nearest. */
export function partFinder(outlines: Outline[]): (path: Path) => Outline | null {
  const own = new Map<Path, Outline>();
  /** The first of the parts that lie at a path or within it. */
  const within = new Map<Path, Outline>();
  for (const outline of outlines) {
    const { path } = outline.part;
    if (!own.has(path)) own.set(path, outline);
    // One key is too little to have in common.
    for (let way = path; way.lastIndexOf("/") > 0; way = parentOf(way)) {
      if (!within.has(way)) within.set(way, outline);
    }
  }
  return (path) => {
    for (let way = path; way !== ""; way = parentOf(way)) {
      // The part that holds the path itself, above one that only lies near it in the file.
      const found = own.get(way) ?? within.get(way);
      if (found) return found;
    }
    return null;
  };
}

export interface Place {
  /** Of the part it points at. */
  path: Path;
  spot: Spot;
  verdict: Verdict;
  findings: Finding[];
}

/** What is marked in the picture: what the open work has to say that is not good, and what is opened. */
export function markedIn(work: Work, findings: Finding[], opened: string | null): Finding[] {
  return findings.filter((f) => (f.work === work && f.verdict !== "good") || f.id === opened);
}

const kWorst: Verdict[] = ["stop", "look", "good"];

/** Where findings point: one place a part, with the worst verdict of those there. */
export function placesOf(outlines: Outline[], findings: Finding[]): Place[] {
  const partFor = partFinder(outlines);
  const byPart = new Map<string, Place>();
  for (const finding of findings) {
    const outline = partFor(finding.path);
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
