import { move } from "../../api/pose";
import { useStore } from "../../api/store";
import type { Curve, Numeric } from "../../api/types";
import { CurveChart } from "./curve";

interface TravelCurvesProps {
  /** Whose travel it is; null: nobody's, and the cursors stand where it is drawn. */
  axle: string | null;
  curves: Curve[];
  /** What a curve's number is where the truck stands now. */
  nowOf?: (id: string) => Numeric | undefined;
}

/** Curves over the travel of an axle; a finger on one moves the axle. */
export function TravelCurves({ axle, curves, nowOf }: TravelCurvesProps) {
  const heave = useStore((s) => s.question.heave?.[axle ?? ""] ?? 0);
  const roll = useStore((s) => s.question.roll?.[axle ?? ""] ?? 0);
  return (
    <div className="curve-grid">
      {curves.map((curve) => {
        const isRoll = curve.x_dimension === "angle";
        return (
          <CurveChart
            key={curve.id}
            curve={curve}
            cursor={isRoll ? roll : heave}
            now={nowOf?.(curve.id)}
            onMove={(x) =>
              axle !== null && (isRoll ? move({}, { [axle]: x }) : move({ [axle]: x }, {}))
            }
          />
        );
      })}
    </div>
  );
}
