import { choose } from "../../api/choose";
import type { DriveMode, GearReport, LiftReport, Numeric } from "../../api/types";
import { capital } from "../../format/text";
import { FigureCell } from "../common/figure-cell";
import { Stacked } from "../common/figures";
import { TableBox } from "../common/table-box";

/** The ways in which the cases swing on their mounts. */
export function Modes({ modes }: { modes: DriveMode[] }) {
  if (modes.length === 0) return null;
  return (
    <TableBox caption="How it swings on its mounts">
      <thead>
        <tr>
          <th scope="col">Mostly</th>
          <th scope="col">How fast</th>
          <th scope="col" className="words">
            Made of
          </th>
        </tr>
      </thead>
      <tbody>
        {modes.map(({ way, frequency, shares }, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two may swing mostly the same way.
          <tr key={`${way} ${at}`}>
            <th scope="row">{capital(way)}</th>
            <FigureCell value={frequency} />
            <td className="words">
              <Stacked text={shares.map((s) => `${s.way} ${s.share.text}`).join(", ")} />
            </td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}

/** How fast it goes in each gear, and what it climbs. */
export function Gears({ gears, at }: { gears: GearReport[]; at: Numeric }) {
  if (gears.length === 0) return null;
  const hasRanges = gears.some((g) => g.range !== "");
  return (
    <TableBox caption="Gears, engine to wheels">
      <thead>
        <tr>
          <th scope="col">Gear</th>
          {hasRanges && (
            <th scope="col" className="words">
              Range
            </th>
          )}
          <th scope="col">Overall</th>
          <th scope="col">At idle</th>
          <th scope="col">At top speed</th>
          <th scope="col">Engine at {at.text}</th>
          <th scope="col">Climbs</th>
          <th scope="col" className="words">
            Held by
          </th>
        </tr>
      </thead>
      <tbody>
        {gears.map((one) => (
          <tr key={`${one.gear} ${one.range}`}>
            <th scope="row">{capital(one.gear)}</th>
            {hasRanges && <td className="words">{one.range}</td>}
            <FigureCell value={one.overall} />
            <FigureCell value={one.idle_speed} />
            <FigureCell value={one.top_speed} />
            <FigureCell value={one.road_engine} />
            <FigureCell value={one.climb} />
            <td className="words">{one.climb_by}</td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}

/** What hangs on the hoist at once. */
export function Lifts({ lifts }: { lifts: LiftReport[] }) {
  if (lifts.length === 0) return null;
  return (
    <TableBox caption="Lifts">
      <thead>
        <tr>
          <th scope="col">On the hook</th>
          <th scope="col">Weighs</th>
          <th scope="col">Balances at station</th>
          <th scope="col">Hook off by</th>
          <th scope="col">Pull of a leg</th>
        </tr>
      </thead>
      <tbody>
        {lifts.map((lift) => (
          <tr key={lift.id}>
            <th scope="row">
              <button type="button" className="line-link" onClick={() => choose(lift.path)}>
                {capital(lift.label)}
              </button>
            </th>
            <FigureCell value={lift.mass} />
            <FigureCell value={lift.balance} />
            <FigureCell value={lift.hook_off} />
            <FigureCell value={lift.leg} />
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}
