import type { AxleReport, Report, Trial, WorkingStep } from "./types";

/** The report with what one work tells of a trial; the rest is as it was, and shown so. */
export function reportWith(report: Report, trial: Trial): Report {
  const { work, summary, findings, axles, states, frame, ...told } = trial;
  const others = report.findings.filter((f) => f.work !== work);
  return {
    ...report,
    ...told,
    ...(axles === undefined ? {} : { axles: report.axles.map((a) => axleWith(a, axles)) }),
    ...(states === undefined
      ? {}
      : {
          states: states.map((state) => ({
            ...state,
            explained: withWorkings(
              state.explained,
              report.states.find((s) => s.id === state.id)?.explained,
              ({ id }) => id,
            ),
          })),
        }),
    // The stages, and sentences that are about them too, are not told while a hand moves something.
    ...(frame === undefined ? {} : { frame: frame && { ...frame, stages: stagesOf(report) } }),
    ...(summary === undefined ? {} : { summary: { ...report.summary, [work]: summary } }),
    findings: [...withWorkings(findings, report.findings, ({ id }) => id), ...others],
  };
}

const stagesOf = (report: Report) => report.frame?.stages ?? [];

/** An axle as a trial tells it, where it does. */
function axleWith(before: AxleReport, told: AxleReport[]): AxleReport {
  const axle = told.find((a) => a.id === before.id);
  if (!axle) return before;
  return {
    ...axle,
    rows: withWorkings(axle.rows, before.rows, ({ id }) => id),
    seats: withWorkings(axle.seats, before.seats, ({ name }) => name),
    links_working: before.links_working,
  };
}

/** A trial comes without workings: those that stood stay, and are shown so. */
function withWorkings<T extends { working: WorkingStep[] }>(
  told: T[],
  before: T[] | undefined,
  idOf: (one: T) => string,
): T[] {
  const kept = new Map(before?.map((one) => [idOf(one), one.working]));
  return told.map((one) => ({ ...one, working: kept.get(idOf(one)) ?? one.working }));
}

/** Numbers that read alike count as the same while a hand moves something. */
export function sameAsShown(before: unknown, now: unknown): boolean {
  if (Object.is(before, now)) return true;
  return isNumeric(before) && isNumeric(now) && before.text === now.text && before.si !== null;
}

function isNumeric(value: unknown): value is { si: number | null; text: string } {
  return typeof value === "object" && value !== null && "si" in value && "text" in value;
}
