import { choose } from "../../api/choose";
import { useAnswers } from "../../api/store";
import type { DriveCase, DrivetrainReport } from "../../api/types";
import { capital } from "../../format/text";
import { FigureCell } from "../common/figure-cell";
import { ReportRow } from "../common/report-row";
import { Summary } from "../common/summary";
import { TableBox } from "../common/table-box";
import { ChosenCard } from "../fields/chosen-card";
import { MissingList } from "../front/missing";
import { NextList } from "../next/next-list";
import { DriveLoads } from "./drive-loads";
import { Gears, Lifts, Modes } from "./drive-tables";
import { DrivetrainInputs } from "./drivetrain-inputs";
import { Gaps } from "./gaps";
import { MockUp } from "./mock-up";
import { MoveCases } from "./move-cases";
import { Shafts } from "./shafts";

const kNothing: string[] = [];
const kTops = ["drivetrain"];

/** What the cases do to their mounts and to each other, how the shafts run, and what the gears give. */
export function DrivetrainSheet() {
  const sentences = useAnswers((a) => a.report.summary.drivetrain ?? kNothing);
  const drivetrain = useAnswers((a) => a.report.drivetrain);
  return (
    <>
      <Summary sentences={sentences} />
      <ChosenCard />
      <MissingList tops={kTops} />
      <NextList work="drivetrain" />
      {drivetrain ? (
        <DrivetrainNumbers drivetrain={drivetrain} />
      ) : (
        <p className="empty">
          Type the cases first, from the engine back, and where the first one starts: from these,
          their mounts and the shafts comes what each mount carries and how the shafts run.
        </p>
      )}
      <section className="inputs-block" aria-label="What it was answered from">
        <h3>What it was answered from</h3>
        <DrivetrainInputs />
      </section>
    </>
  );
}

function DrivetrainNumbers({ drivetrain }: { drivetrain: DrivetrainReport }) {
  return (
    <>
      {drivetrain.rows.length > 0 && (
        <section className="numbers" aria-label="Numbers: drivetrain">
          <h3>Engine and cases</h3>
          {drivetrain.rows.map((row) => (
            <ReportRow key={row.id} row={row} />
          ))}
        </section>
      )}
      {drivetrain.cases.length > 0 && <MoveCases />}
      <DriveLoads drivetrain={drivetrain} />
      <Gaps gaps={drivetrain.gaps} />
      <Modes modes={drivetrain.modes} />
      <Shafts shafts={drivetrain.shafts} />
      <Gears gears={drivetrain.gears} at={drivetrain.road_speed} />
      <Cases cases={drivetrain.cases} />
      <Lifts lifts={drivetrain.lifts} />
      <MockUp steps={drivetrain.steps} />
    </>
  );
}

function Cases({ cases }: { cases: DriveCase[] }) {
  if (cases.length === 0) return null;
  return (
    <TableBox caption="Cases, from the front">
      <thead>
        <tr>
          <th scope="col">Case</th>
          <th scope="col">Weighs</th>
        </tr>
      </thead>
      <tbody>
        {cases.map((one) => (
          <tr key={one.id}>
            <th scope="row">
              <button type="button" className="line-link" onClick={() => choose(one.path)}>
                {capital(one.label)}
              </button>
            </th>
            <FigureCell value={one.mass} />
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}
