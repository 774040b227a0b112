import { choose } from "../../api/choose";
import { at, join } from "../../api/pointer";
import { useAnswers } from "../../api/store";
import type { ShaftReport } from "../../api/types";
import { capital } from "../../format/text";
import { TravelCurves } from "../axles/travel-curves";
import { ReportRow } from "../common/report-row";

/** How each shaft runs at ride and over the travel of the axle it leads to. */
export function Shafts({ shafts }: { shafts: ShaftReport[] }) {
  return shafts.map((shaft) => <Shaft key={shaft.id} shaft={shaft} />);
}

function Shaft({ shaft }: { shaft: ShaftReport }) {
  const { label, path, rows, curves } = shaft;
  const leadsTo = useAnswers((a) => at(a.document, join(path, "to")));
  const axle = useAnswers((a) => a.report.axles.find((x) => x.id === leadsTo)?.id ?? null);
  const name = capital(label);
  return (
    <section className="shaft-report" aria-label={name}>
      <div className="numbers">
        <h3>
          <button type="button" className="line-link" onClick={() => choose(path)}>
            {name}
          </button>
        </h3>
        {rows.map((row) => (
          <ReportRow key={row.id} row={row} />
        ))}
      </div>
      {curves.length > 0 && (
        <section className="curves" aria-label={`${name} over the travel`}>
          <h4>{name} over the travel</h4>
          <TravelCurves axle={axle} curves={curves} />
        </section>
      )}
    </section>
  );
}
