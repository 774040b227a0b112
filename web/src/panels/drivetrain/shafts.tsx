import { choose } from "../../api/choose";
import { at, join } from "../../api/pointer";
import { useAnswers } from "../../api/store";
import type { ShaftReport, ShaftUnderLoad } from "../../api/types";
import { capital } from "../../format/text";
import { TravelCurves } from "../axles/travel-curves";
import { FigureCell } from "../common/figure-cell";
import { ReportRow } from "../common/report-row";
import { TableBox } from "../common/table-box";
import { ShaftMapPicture } from "./shaft-map";

/** How each shaft runs at ride and over the travel of the axle it leads to. */
export function Shafts({ shafts }: { shafts: ShaftReport[] }) {
  return shafts.map((shaft) => <Shaft key={shaft.id} shaft={shaft} />);
}

function Shaft({ shaft }: { shaft: ShaftReport }) {
  const { label, path, rows, curves, map, under_load } = shaft;
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
      <div className="shaft-more">
        {map && <ShaftMapPicture map={map} name={name} />}
        {under_load.length > 0 && <UnderLoad loads={under_load} />}
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

/** What the cases' moving on their mounts makes of the shaft at ride. */
function UnderLoad({ loads }: { loads: ShaftUnderLoad[] }) {
  const joints = loads[0]?.angles.length ?? 0;
  const names = joints === 2 ? ["At the case", "Far end"] : ["At the case", "Bearing", "Far end"];
  return (
    <div>
      <TableBox caption="At ride, with the cases moved on their mounts">
        <thead>
          <tr>
            <th scope="col">Under</th>
            {names.slice(0, joints).map((joint) => (
              <th scope="col" key={joint}>
                {joint}
              </th>
            ))}
            <th scope="col">Joints leave</th>
            <th scope="col">Turns</th>
            <th scope="col">Twist shake</th>
          </tr>
        </thead>
        <tbody>
          {loads.map((load) => (
            <tr key={load.id}>
              <th scope="row">{load.label}</th>
              {load.angles.map((angle, at) => (
                <FigureCell key={names[at]} value={angle} />
              ))}
              <FigureCell value={load.leaves} />
              <FigureCell value={load.speed} />
              <FigureCell value={load.shake} />
            </tr>
          ))}
        </tbody>
      </TableBox>
    </div>
  );
}
