import { memo, useEffect, useState } from "react";
import { choose } from "../../api/choose";
import { client } from "../../api/client";
import { shareUnchanged } from "../../api/share";
import { useAnswers, useStore } from "../../api/store";
import type { FrameSection, Path } from "../../api/types";
import { Stacked } from "../common/figures";
import { NumberRow } from "../common/number-row";

const kMargin_m = 0.012;
const kWidth_px = 300;
/** A section is drawn no larger than this, so that small frames do not fill the sheet. */
const kMost_px_per_m = 1400;

interface Box {
  left: number;
  right: number;
  low: number;
  high: number;
}

/** What is drawn of a section: y runs to the left. */
function boxOf({ walls, centroid, shear_centre }: FrameSection): Box {
  const half = Math.max(...walls.map((w) => w.thickness)) / 2;
  const spots = [...walls.flatMap((w) => w.points), centroid, shear_centre];
  const ys = spots.map((s) => s[0] ?? 0);
  const zs = spots.map((s) => s[1] ?? 0);
  const room = half + kMargin_m;
  return {
    left: Math.max(...ys) + room,
    right: Math.min(...ys) - room,
    low: Math.min(...zs) - room,
    high: Math.max(...zs) + room,
  };
}

/** The sections of the frame as planned, to one scale, with what they are worth. */
export const Sections = memo(function Sections() {
  const sections = useSections();
  if (sections.length === 0) return null;
  const widest = Math.max(...sections.map(boxOf).map((b) => b.left - b.right));
  const scale = Math.min(kMost_px_per_m, kWidth_px / widest);
  return (
    <section className="sections" aria-label="Sections">
      <h3>Sections, as planned</h3>
      <p className="soft">
        All to one scale. Cross: centroid. Ring: shear centre, where a push bends without a twist.
      </p>
      {sections.map((section) => (
        <article key={section.where.join(" ")}>
          <h4>
            {section.where.map((where, i) => (
              <button
                key={where}
                type="button"
                className="line-link"
                onClick={() => choose(section.paths[i] ?? (section.paths[0] as Path))}
              >
                <Stacked text={where} />
              </button>
            ))}
          </h4>
          <div className="section-beside">
            <figure>
              <SectionDrawing section={section} scale={scale} />
              <figcaption className="soft">Seen {section.seen}</figcaption>
            </figure>
            <div className="section-rows">
              {section.numbers.map(({ id, label, value }) => (
                <NumberRow key={id} label={label} value={value} />
              ))}
            </div>
          </div>
        </article>
      ))}
    </section>
  );
});

function SectionDrawing({ section, scale }: { section: FrameSection; scale: number }) {
  const box = boxOf(section);
  const at = ([y = 0, z = 0]: number[]) =>
    `${((box.left - y) * scale).toFixed(1)} ${((box.high - z) * scale).toFixed(1)}`;
  const width = (box.left - box.right) * scale;
  const height = (box.high - box.low) * scale;
  return (
    <svg
      className="section-drawing"
      width={width}
      height={height}
      viewBox={`0 0 ${width.toFixed(1)} ${height.toFixed(1)}`}
      role="img"
      aria-label={`Section: ${section.where.join("; ")}`}
    >
      {section.walls.map((wall, i) => (
        <path
          // biome-ignore lint/suspicious/noArrayIndexKey: walls have no names.
          key={`${i}`}
          className="wall"
          d={`M${wall.points.map(at).join("L")}`}
          strokeWidth={Math.max(1.5, wall.thickness * scale)}
        />
      ))}
      <path
        className="centroid"
        transform={`translate(${at(section.centroid)})`}
        d="M-8 0H8M0 -8V8"
      />
      <circle className="shear-centre" transform={`translate(${at(section.shear_centre)})`} r="6" />
    </svg>
  );
}

const kNone: FrameSection[] = [];

function useSections(): FrameSection[] {
  const place = useStore((s) => s.place);
  const etag = useAnswers((a) => a.etag);
  const [sections, setSections] = useState(kNone);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another state has other sections.
  useEffect(() => {
    if (!place) return;
    let wanted = true;
    client.frameSections(place).then(
      ({ sections: fresh }) => wanted && setSections((before) => shareUnchanged(before, fresh)),
      // What was drawn stays: the next edit asks again.
      () => undefined,
    );
    return () => {
      wanted = false;
    };
  }, [place, etag]);
  return sections;
}
