import type { Verdict } from "../../api/types";

export type MarkKind = Verdict | "unknown";

export const kVerdictWords: Record<MarkKind, string> = {
  good: "Good",
  look: "Look",
  stop: "Stop",
  unknown: "Not known",
};

/** The strokes of a mark about the origin: told apart by shape, colour only helps. */
export function MarkShape({ kind, size }: { kind: MarkKind; size: number }) {
  const r = size / 2;
  switch (kind) {
    case "good":
      return <circle className="mark good" r={r * 0.62} />;
    case "look":
      return (
        <g className="mark look">
          <circle r={r * 0.72} />
          <line x1={-r} x2={r} y1="0" y2="0" />
        </g>
      );
    case "stop":
      return (
        <g className="mark stop">
          <rect x={-r * 0.85} y={-r * 0.85} width={r * 1.7} height={r * 1.7} />
          <line x1={-r * 0.5} y1={r * 0.5} x2={r * 0.5} y2={-r * 0.5} />
        </g>
      );
    case "unknown":
      return <circle className="mark unknown" r={r * 0.72} />;
  }
}

export function Mark({ kind, size = 22 }: { kind: MarkKind; size?: number }) {
  const half = size / 2 + 1;
  return (
    <svg
      className="mark-box"
      width={size + 2}
      height={size + 2}
      viewBox={`${-half} ${-half} ${2 * half} ${2 * half}`}
      role="img"
      aria-label={kVerdictWords[kind]}
    >
      <MarkShape kind={kind} size={size} />
    </svg>
  );
}
