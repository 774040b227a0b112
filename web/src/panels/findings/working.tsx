import { choose } from "../../api/choose";
import { keysOf } from "../../api/pointer";
import type { Finding, Path, WorkingStep } from "../../api/types";
import { wordsOf } from "../../format/text";
import { Stacked } from "../common/figures";

/** The working of a finding: formula, the same with values, its source, and the inputs it came from. */
export function Working({ finding }: { finding: Finding }) {
  return (
    <div className="working">
      <Steps steps={finding.working} />
      {finding.limit && (
        <p className="basis">
          Limit <Stacked text={finding.limit.text} />: <Stacked text={finding.basis} />
        </p>
      )}
      {!finding.limit && finding.basis !== "" && <p className="basis">{finding.basis}</p>}
      {finding.assumption !== "" && (
        <p className="assumption">
          Assumed: <Stacked text={finding.assumption} />
        </p>
      )}
    </div>
  );
}

/** Formula, the same with values, source and inputs, step by step. */
export function Steps({ steps }: { steps: WorkingStep[] }) {
  if (steps.length === 0) return null;
  return (
    <ol>
      {steps.map((step) => (
        <li key={step.formula + step.with_values}>
          <code className="formula">{step.formula}</code>
          <code className="with-values">
            <Stacked text={step.with_values} />
          </code>
          {step.source !== "" && <span className="source">{step.source}</span>}
          <Inputs paths={step.input_paths} />
        </li>
      ))}
    </ol>
  );
}

function Inputs({ paths }: { paths: Path[] }) {
  if (paths.length === 0) return null;
  return (
    <span className="inputs">
      {paths.map((path) => (
        <button key={path} type="button" onClick={() => choose(path)}>
          {namedBy(path)}
        </button>
      ))}
    </span>
  );
}

/** A path in words: "/axles/front/links/upper/axle/at/height" is "front, upper, axle, height". */
export function namedBy(path: Path): string {
  const quiet = new Set([
    "axles",
    "links",
    "arms",
    "coils",
    "leaf_packs",
    "dampers",
    "bump_stops",
    "at",
  ]);
  const keys = keysOf(path);
  const words = keys.filter((key) => !quiet.has(key));
  return wordsOf(words.join(", ") || keys.at(-1) || "the whole build");
}
