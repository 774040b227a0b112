import { useState } from "react";
import { choose } from "../../api/choose";
import { useAnswers } from "../../api/store";
import type { FrameReport, Numeric, StageChange, StageCut } from "../../api/types";
import { capital } from "../../format/text";
import { Figures, Stacked } from "../common/figures";
import { Mark } from "../common/mark";
import { NumberRow } from "../common/number-row";
import { TableBox } from "../common/table-box";

type Stage = FrameReport["stages"][number];

/** The stages of the work one by one: what each cut lets go, and what the frame does then. */
export function Stages({ stages }: { stages: Stage[] }) {
  const [at, setAt] = useState(0);
  const stage = stages[Math.min(at, stages.length - 1)];
  if (!stage) return null;
  return (
    <section className="stages" aria-label="Stages of the work">
      <h3>Stages of the work</h3>
      <fieldset className="choose-one" aria-label="Which stage">
        {stages.map((one, index) => (
          <StageKey
            key={one.id}
            stage={one}
            number={index + 1}
            shown={one === stage}
            onShow={() => setAt(index)}
          />
        ))}
      </fieldset>
      {stage.cut ? (
        <Cut stage={stage} cut={stage.cut} />
      ) : (
        <p className="empty">
          This stage can't be told yet: the list of what is missing and the faults above say why.
        </p>
      )}
    </section>
  );
}

function StageKey(props: { stage: Stage; number: number; shown: boolean; onShow: () => void }) {
  const { stage, number, shown, onShow } = props;
  const id = `frame.stage.${stage.id}`;
  const verdict = useAnswers((a) => a.report.findings.find((f) => f.id === id)?.verdict ?? null);
  return (
    <button type="button" aria-pressed={shown} onClick={onShow}>
      {verdict && verdict !== "good" && <Mark kind={verdict} size={16} />} {number}. {stage.label}
    </button>
  );
}

function Cut({ stage, cut }: { stage: Stage; cut: StageCut }) {
  const id = `frame.stage.${stage.id}`;
  const finding = useAnswers((a) => a.report.findings.find((f) => f.id === id) ?? null);
  return (
    <>
      {finding && (
        <p className="state-sentence">
          <Stacked text={finding.sentence} />
        </p>
      )}
      {finding && finding.verdict !== "good" && (
        <p className="advice">
          <Stacked text={finding.advice} />
        </p>
      )}
      <NumberRow
        label="Greatest stress"
        value={cut.after.stress.von_mises}
        finding={id}
        explain={`At the ${cut.after.stress.where}. Before the cut ${cut.before.von_mises.text}.`}
      />
      <NumberRow
        label="A rail goes up or down by"
        value={cut.after.height}
        explain={`${capital(cut.after.height_at)}, seen from the stands. Less than nothing is down.`}
        usual="Within 1/16 in (common practice)."
      />
      <NumberRow
        label="Diagonals go apart by"
        value={cut.after.diagonals}
        explain="Left front to right rear less right front to left rear: how that changes with the cut."
        usual="Within 1/8 in (common practice)."
      />
      {cut.without_brace && <Without now={cut.after} without={cut.without_brace} />}
      {cut.parts.length > 0 && <PartsOut cut={cut} />}
      {cut.stands.length > 0 && <OnStands cut={cut} />}
      <p className="caution">
        A part under load jumps when it lets go: support both sides of the cut, cut the last of it
        slowly, and keep out from under it.
      </p>
    </>
  );
}

function Without({ now, without }: { now: StageChange; without: StageChange }) {
  const rows: [string, Numeric, Numeric][] = [
    ["Height", now.height, without.height],
    ["Diagonals", now.diagonals, without.diagonals],
    ["Stress", now.stress.von_mises, without.stress.von_mises],
  ];
  return (
    <TableBox caption="What the brace does">
      <thead>
        <tr>
          <td />
          <th scope="col">With it</th>
          <th scope="col">Without</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([label, a, b]) => (
          <tr key={label}>
            <th scope="row">{label}</th>
            <td>
              <Figures value={a} size="small" />
            </td>
            <td>
              <Figures value={b} size="small" />
            </td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}

function PartsOut({ cut }: { cut: StageCut }) {
  return (
    <TableBox caption="What comes out, and how the rails spring there">
      <thead>
        <tr>
          <th scope="col">Part</th>
          <th scope="col">Apart</th>
          <th scope="col">Left up</th>
          <th scope="col">Left ahead</th>
        </tr>
      </thead>
      <tbody>
        {cut.parts.map((part) => (
          <tr key={`${part.path} ${part.label}`}>
            <th scope="row">
              <button type="button" className="line-link" onClick={() => choose(part.path)}>
                {capital(part.label)}
              </button>
            </th>
            {part.spring ? (
              [part.spring.apart, part.spring.height, part.spring.ahead].map((value, index) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: always these three.
                <td key={index}>
                  <Figures value={value} size="small" />
                </td>
              ))
            ) : (
              <td colSpan={3} className="soft">
                one rail only
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}

function OnStands({ cut }: { cut: StageCut }) {
  return (
    <TableBox caption="On the stands">
      <thead>
        <tr>
          <th scope="col">Stand</th>
          <th scope="col">Before</th>
          <th scope="col">After</th>
        </tr>
      </thead>
      <tbody>
        {cut.stands.map((stand) => (
          <tr key={stand.label}>
            <th scope="row">{capital(stand.label)}</th>
            <td>
              <Figures value={stand.before} size="small" />
            </td>
            <td>
              {stand.lifted ? (
                <>
                  <Mark kind="look" size={16} /> lifts off
                </>
              ) : (
                <Figures value={stand.after} size="small" />
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}
