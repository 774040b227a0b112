import type { Numeric, Row } from "../../api/types";
import { NumberRow } from "./number-row";

/** A number of a report with all that is told about it. */
export function ReportRow({ row, now }: { row: Row; now?: Numeric | undefined }) {
  return (
    <NumberRow
      label={row.label}
      value={row.value}
      verdict={row.verdict}
      low={row.low}
      high={row.high}
      finding={row.finding}
      explain={row.explain}
      usual={row.usual}
      working={row.working}
      now={now}
    />
  );
}
