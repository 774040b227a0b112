import type {
  BuildAnswer,
  Edit,
  EditAnswer,
  ErrorBody,
  Json,
  PoseAnswer,
  PoseQuestion,
  ReportAnswer,
  SceneAnswer,
} from "./types";

/** What the program answered instead of what was asked for. */
export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly body: ErrorBody,
  ) {
    super(body.error);
  }
}

/** The program did not answer at all. */
export class NoAnswer extends Error {}

async function ask<T>(route: string, body?: unknown): Promise<T> {
  let response: Response;
  try {
    response = await fetch(
      route,
      body === undefined
        ? { cache: "no-store" }
        : {
            method: "POST",
            headers: { "Content-Type": "application/json" },
            body: JSON.stringify(body),
          },
    );
  } catch {
    throw new NoAnswer("The program is not answering.");
  }
  const text = await response.text();
  let answer: unknown;
  try {
    answer = JSON.parse(text);
  } catch {
    throw new NoAnswer("The program answered something this page cannot read.");
  }
  if (!response.ok) throw new Refusal(response.status, answer as ErrorBody);
  return answer as T;
}

export const client = {
  build: () => ask<BuildAnswer>("api/build"),
  report: () => ask<ReportAnswer>("api/report"),
  scene: () => ask<SceneAnswer>("api/scene"),
  schema: () => ask<Json>("api/schema"),
  pose: (question: PoseQuestion) => ask<PoseAnswer>("api/pose", question),
  edit: (revision: number, edits: Edit[]) => ask<EditAnswer>("api/edit", { revision, edits }),
};
