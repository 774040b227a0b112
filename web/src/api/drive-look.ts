import { setState, useAnswers, useStore } from "./store";
import type { DriveLoad, DrivetrainReport } from "./types";

/** Chooses the load of the drivetrain that sheet and picture show. */
export function showLoad(id: string): void {
  setState({ driveLoad: id });
}

/** The chosen load if there is one, else the first. */
export function loadShown(
  drivetrain: DrivetrainReport | null,
  chosen: string | null,
): DriveLoad | null {
  const loads = drivetrain?.loads ?? [];
  return loads.find((l) => l.id === chosen) ?? loads[0] ?? null;
}

/** The load that is shown now: on the drivetrain's own work only. */
export function useLoadShown(): DriveLoad | null {
  const drivetrain = useAnswers((a) => a.report.drivetrain);
  const chosen = useStore((s) => s.driveLoad);
  const onDrivetrain = useStore((s) => s.work === "drivetrain");
  return onDrivetrain ? loadShown(drivetrain, chosen) : null;
}
