import { choose } from "../../api/actions";
import { keysOf } from "../../api/pointer";
import { useAnswers } from "../../api/store";
import { Mark } from "../common/mark";

/** What is not known yet on a sheet, and what has stopped a part of its work. */
export function MissingList({ tops }: { tops: string[] }) {
  const missing = useAnswers((a) => a.report.missing);
  const diagnostics = useAnswers((a) => a.report.diagnostics);
  const here = (path: string) => tops.includes(keysOf(path)[0] ?? "");
  const absent = missing.filter((m) => here(m.path));
  const faults = diagnostics.filter((d) => here(d.path));
  if (absent.length + faults.length === 0) return null;
  return (
    <details className="missing" open={faults.length > 0}>
      <summary>
        <Mark kind="unknown" size={18} />
        {faults.length + absent.length === 1
          ? "One thing is not known yet"
          : `${faults.length + absent.length} things are not known yet`}
      </summary>
      <ul>
        {faults.map((d) => (
          <li key={d.code + d.path}>
            <Mark kind="unknown" size={18} />
            <button type="button" onClick={() => choose(d.path)}>
              <strong>{d.message}</strong> {d.remedy}
            </button>
          </li>
        ))}
        {absent.map((m) => (
          <li key={m.path + m.what}>
            <Mark kind="unknown" size={18} />
            <button type="button" onClick={() => choose(m.path)}>
              <strong>{m.what}</strong> {m.needed}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
