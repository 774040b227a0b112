import { memo } from "react";
import { choose } from "../../api/choose";
import { keysOf } from "../../api/pointer";
import { useAnswers } from "../../api/store";
import { capital } from "../../format/text";
import { Mark } from "../common/mark";
import { namedBy } from "../findings/working";

/** So many are told without being asked for. */
const kFew = 3;

/** What is not known yet on a sheet, and what has stopped a part of the work on any. */
export const MissingList = memo(function MissingList({ tops }: { tops: string[] }) {
  const missing = useAnswers((a) => a.report.missing);
  const faults = useAnswers((a) => a.report.diagnostics);
  const here = (path: string) => tops.includes(keysOf(path)[0] ?? "");
  // What unlocks most comes first, over all sheets: the numbers are those of the whole list.
  const absent = missing.flatMap((m, i) => (here(m.path) ? [{ ...m, number: i + 1 }] : []));
  if (absent.length + faults.length === 0) return null;
  return (
    <details className="missing" open={faults.length > 0 || absent.length <= kFew}>
      <summary>
        <Mark kind="unknown" size={18} />
        {heading(faults.length, absent.length)}
      </summary>
      {faults.length > 0 && (
        <ul>
          {faults.map((d) => (
            <li key={d.code + d.path}>
              <Mark kind="unknown" size={18} />
              <button type="button" onClick={() => choose(d.path)}>
                <strong>
                  {namedBy(d.path)}: {d.message}
                </strong>{" "}
                {capital(d.remedy)}
              </button>
            </li>
          ))}
        </ul>
      )}
      {absent.length > 0 && (
        <ol aria-label="What to tell next, what unlocks most first">
          {absent.map((m) => (
            <li key={m.path + m.what} value={m.number}>
              <span className="missing-number">{m.number}.</span>
              <button type="button" onClick={() => choose(m.path)}>
                <strong>{capital(m.what)}:</strong> {m.needed}
              </button>
            </li>
          ))}
        </ol>
      )}
    </details>
  );
});

function heading(faults: number, absent: number): string {
  const stopped =
    faults === 1 ? "one thing cannot be worked out" : `${faults} things cannot be worked out`;
  const unknown =
    absent === 1 ? "one thing is not known yet" : `${absent} things are not known yet`;
  const said = [...(faults > 0 ? [stopped] : []), ...(absent > 0 ? [unknown] : [])];
  return capital(said.join(", "));
}
