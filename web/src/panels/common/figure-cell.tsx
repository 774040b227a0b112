import type { Numeric } from "../../api/types";
import { Figures } from "./figures";

/** A number in a table. */
export function FigureCell({ value }: { value: Numeric }) {
  return (
    <td>
      <Figures value={value} size="small" />
    </td>
  );
}
