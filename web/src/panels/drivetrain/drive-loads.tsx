import { choose } from "../../api/choose";
import { loadShown, showLoad } from "../../api/drive-look";
import { thingOf } from "../../api/pointer";
import { useStore } from "../../api/store";
import type { DriveLoad, DrivetrainReport, FlangeLoad, MountLoad } from "../../api/types";
import { capital } from "../../format/text";
import { FigureCell } from "../common/figure-cell";
import { Figures, Stacked } from "../common/figures";
import { Mark } from "../common/mark";
import { TableBox } from "../common/table-box";
import { BendingDiagram } from "./bending-diagram";

/** One load at a time: what the mounts and the flanges carry, and how the cases are bent. */
export function DriveLoads({ drivetrain }: { drivetrain: DrivetrainReport }) {
  const chosen = useStore((s) => s.driveLoad);
  const load = loadShown(drivetrain, chosen);
  if (!load) return null;
  return (
    <section className="drive-loads" aria-label="Under load">
      <h3>Under load</h3>
      {drivetrain.loads.length > 1 && (
        <fieldset className="choose-one wraps" aria-label="Which load">
          {drivetrain.loads.map((one) => (
            <button
              key={one.id}
              type="button"
              aria-pressed={one.id === load.id}
              onClick={() => showLoad(one.id)}
            >
              {one.label}
            </button>
          ))}
        </fieldset>
      )}
      <p className="basis">
        {drivetrain.loads.length === 1 && <strong>{load.label}. </strong>}
        <Stacked text={load.basis} />
      </p>
      <div className="drive-load">
        {load.mounts.length > 0 && <Mounts load={load} />}
        {load.diagram.length > 1 && <BendingDiagram load={load} cases={drivetrain.cases} />}
      </div>
      {load.flanges.length > 0 && <Flanges flanges={load.flanges} />}
    </section>
  );
}

function Mounts({ load }: { load: DriveLoad }) {
  return (
    <div>
      <TableBox caption="Mounts, along their own axis">
        <thead>
          <tr>
            <th scope="col">Mount</th>
            <th scope="col">Carries</th>
          </tr>
        </thead>
        <tbody>
          {load.mounts.map((mount) => (
            <tr key={`${mount.path} ${mount.label}`}>
              <th scope="row">
                <ThingLink of={mount} />
              </th>
              <td className="force">
                <Figures value={mount.along} size="small" />
              </td>
            </tr>
          ))}
        </tbody>
      </TableBox>
      <p className="soft">
        A minus pulls the rubber apart. The arrows on the truck are all that each mount does to the
        cases, also across its axis, to one scale for this load.
      </p>
    </div>
  );
}

function ThingLink({ of: { label, path } }: { of: MountLoad | FlangeLoad }) {
  return (
    <button type="button" className="line-link" onClick={() => choose(thingOf(path), path)}>
      {capital(label)}
    </button>
  );
}

function Flanges({ flanges }: { flanges: FlangeLoad[] }) {
  return (
    <TableBox caption="Flanges, where the cases are bolted together">
      <thead>
        <tr>
          <th scope="col">Flange</th>
          <th scope="col">Bending</th>
          <th scope="col">Limit</th>
          <td />
          <th scope="col">Torsion</th>
          <th scope="col">Shear</th>
        </tr>
      </thead>
      <tbody>
        {flanges.map((flange) => (
          <tr key={flange.path + flange.label}>
            <th scope="row">
              <ThingLink of={flange} />
            </th>
            <FigureCell value={flange.bending} />
            {flange.limit ? <FigureCell value={flange.limit} /> : <td>not given</td>}
            <td>{flange.verdict && <Mark kind={flange.verdict} />}</td>
            <FigureCell value={flange.torsion} />
            <FigureCell value={flange.shear} />
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}
