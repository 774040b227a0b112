import { choose } from "../../api/choose";
import type { GapReport } from "../../api/types";
import { capital } from "../../format/text";
import { FigureCell } from "../common/figure-cell";
import { Mark } from "../common/mark";
import { TableBox } from "../common/table-box";

/** What the cases come near, and how far they move there on their mounts. */
export function Gaps({ gaps }: { gaps: GapReport[] }) {
  if (gaps.length === 0) return null;
  return (
    <TableBox caption="Gaps beside the cases">
      <thead>
        <tr>
          <th scope="col">Between</th>
          <th scope="col">As drawn</th>
          <th scope="col">At the least</th>
          <th scope="col" className="words">
            Under
          </th>
          <th scope="col">Wanted</th>
          <th scope="col">Case moves</th>
          <th scope="col" className="words">
            Under
          </th>
        </tr>
      </thead>
      <tbody>
        {gaps.map((gap) => (
          <tr key={gap.id}>
            <th scope="row">
              {gap.verdict && <Mark kind={gap.verdict} size={18} />}
              <button type="button" className="line-link" onClick={() => choose(gap.path)}>
                {capital(gap.label)}
              </button>
            </th>
            <FigureCell value={gap.drawn} />
            <FigureCell value={gap.least} />
            <td className="words">{gap.least_load || "travel"}</td>
            <FigureCell value={gap.wanted} />
            <FigureCell value={gap.moves} />
            <td className="words">{gap.moves_load}</td>
          </tr>
        ))}
      </tbody>
    </TableBox>
  );
}
