import { memo, useMemo } from "react";
import { isWithin, thingOf } from "../api/pointer";
import type { Work } from "../api/store";
import type { Path } from "../api/types";
import { isAside } from "./aside";
import type { Lens } from "./frame";
import type { Outline } from "./outline";
import type { Spot } from "./project";
import { PartShape } from "./strokes";

interface FacePartsProps {
  outlines: Outline[];
  lens: Lens;
  offset: Spot;
  chosen: Path | null;
  /** Paths of the values that have been changed. */
  changed: Path[];
  work: Work;
  /** Whether they are buttons for the keyboard and the screen reader. */
  reachable: boolean;
}

/** All parts in one view; not drawn again for what moves over them. */
export const FaceParts = memo(function FaceParts(props: FacePartsProps) {
  const { outlines, lens, offset, chosen, changed, work, reachable } = props;
  const changedThings = useMemo(
    () => changed.map((path) => ({ path, thing: thingOf(path) })),
    [changed],
  );
  const toneOf = ({ part: { path, kind } }: Outline) =>
    changedThings.some((c) => isWithin(c.path, path) && c.thing === thingOf(path))
      ? "changed"
      : isAside(kind, work)
        ? "aside"
        : "";
  return outlines.map((outline, i) => (
    <PartShape
      key={outline.key}
      outline={outline}
      lens={lens}
      offset={offset}
      tone={toneOf(outline)}
      chosen={outline.part.path === chosen}
      reachable={reachable}
      first={i === 0}
    />
  ));
});
