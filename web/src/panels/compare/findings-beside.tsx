import type { Comparison } from "../../api/shop-types";
import type { Finding, Numeric, Report } from "../../api/types";
import { Figures } from "../common/figures";
import { Mark } from "../common/mark";
import { TableBox } from "../common/table-box";

function Heads({ comparison }: { comparison: Comparison }) {
  return (
    <thead>
      <tr>
        <td />
        <th scope="col">{comparison.a.label}</th>
        <th scope="col">{comparison.b.label}</th>
      </tr>
    </thead>
  );
}

/** The findings that are not alike, as they stand in each. */
export function FindingsBeside({ comparison }: { comparison: Comparison }) {
  const [a, b] = [comparison.a.report.findings, comparison.b.report.findings];
  const ids = [...new Set([...a, ...b].map((f) => f.id))];
  const rows = ids.flatMap((id) => {
    const one = a.find((f) => f.id === id);
    const other = b.find((f) => f.id === id);
    const alike = one?.verdict === other?.verdict && one?.value?.text === other?.value?.text;
    return alike ? [] : [{ id, one, other }];
  });
  if (rows.length === 0) return null;
  return (
    <TableBox caption="Findings that differ">
      <Heads comparison={comparison} />
      <tbody>
        {rows.map(({ id, one, other }) => (
          <tr key={id}>
            <th scope="row">{(one ?? other)?.subject}</th>
            <td>
              <Told finding={one} />
            </td>
            <td className="varied">
              <Told finding={other} />
            </td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}

function Told({ finding }: { finding: Finding | undefined }) {
  if (!finding) return <>none</>;
  return (
    <span className="verdict-value">
      <Mark kind={finding.verdict} size={16} />
      {finding.value && <Figures value={finding.value} size="small" />}
    </span>
  );
}

interface NumberOf {
  key: string;
  label: string;
  value: Numeric;
}

function numbersOf(report: Report): NumberOf[] {
  const weights = report.states.flatMap((s) => [
    { key: `${s.id} total`, label: `${s.label}: total`, value: s.total },
    { key: `${s.id} cg`, label: `${s.label}: balance point up`, value: s.cg.height },
  ]);
  const rows = report.axles.flatMap((axle) =>
    axle.rows.map((r) => ({
      key: `${axle.id} ${r.id}`,
      label: `${axle.label}: ${r.label.toLowerCase()}`,
      value: r.value,
    })),
  );
  const seats = report.axles.flatMap((axle) =>
    axle.seats.map((s) => ({
      key: `${axle.id} ${s.name}`,
      label: `${axle.label}: tack ${s.name}`,
      value: s.tack,
    })),
  );
  return [...weights, ...seats, ...rows];
}

/** The numbers that are not alike. */
export function NumbersBeside({ comparison }: { comparison: Comparison }) {
  const b = numbersOf(comparison.b.report);
  const rows = numbersOf(comparison.a.report).flatMap((one) => {
    const other = b.find((n) => n.key === one.key);
    return other && other.value.text !== one.value.text ? [{ ...one, other: other.value }] : [];
  });
  if (rows.length === 0) return null;
  return (
    <TableBox caption="Numbers that differ">
      <Heads comparison={comparison} />
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            <th scope="row">{row.label}</th>
            <td>
              <Figures value={row.value} size="small" />
            </td>
            <td className="varied">
              <Figures value={row.other} size="small" />
            </td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}
