import type {
  BuildAnswer,
  Change,
  ChangeAnswer,
  Comparison,
  Dependant,
  Door,
  ErrorBody,
  History,
  Question,
  Reading,
  Shop,
  Understood,
} from "./shop-types";
import type {
  FrameDrawing,
  FrameSection,
  Json,
  Operation,
  Path,
  PoseAnswer,
  PoseQuestion,
  Report,
  Scene,
  ToldWork,
  Trial,
} from "./types";
import { screen, whoIsHere } from "./who";

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

/** A dead network says nothing: after this the program counts as not answering. */
const kPatience_ms = 10_000;
/** What to measure next takes a check of the truck for each value that is not sure. */
const kLongPatience_ms = 60_000;

let shutOut = () => {};

/** What is done when the program no longer knows this screen. */
export function whenShutOut(then: () => void): void {
  shutOut = then;
}

interface Asked {
  method?: string;
  body?: unknown;
  type?: string;
  etag?: string;
  patience_ms?: number;
}

async function ask<T>(route: string, asked: Asked = {}): Promise<T> {
  const { method = "GET", body, type, etag, patience_ms = kPatience_ms } = asked;
  const headers: Record<string, string> = {};
  if (body !== undefined) headers["Content-Type"] = type ?? "application/json";
  if (etag !== undefined) headers["If-Match"] = `"${etag}"`;
  if (method !== "GET") {
    headers["Rig-Screen"] = screen;
    const initials = whoIsHere();
    if (initials) headers["Rig-Initials"] = initials;
  }
  let response: Response;
  try {
    response = await fetch(route, {
      method,
      cache: "no-store",
      headers,
      signal: AbortSignal.timeout(patience_ms),
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  } catch {
    throw new NoAnswer("The program is not answering.");
  }
  if (response.status === 204) return undefined as T;
  let answer: unknown;
  try {
    answer = JSON.parse(await response.text());
  } catch {
    throw new NoAnswer("The program answered something this page cannot read.");
  }
  if (response.status === 401) shutOut();
  if (!response.ok) throw new Refusal(response.status, answer as ErrorBody);
  return answer as T;
}

const post = <T>(route: string, body: unknown, etag?: string) =>
  ask<T>(route, { method: "POST", body, ...(etag === undefined ? {} : { etag }) });

/** One build, or one variant of it, as its routes are named. */
export interface Where {
  build: string;
  variant: string | null;
}

export function routeOf({ build, variant }: Where, rest = "", query: string[] = []): string {
  const all = variant === null ? query : [...query, `variant=${encodeURIComponent(variant)}`];
  const asked = all.length > 0 ? `?${all.join("&")}` : "";
  return `api/builds/${encodeURIComponent(build)}${rest}${asked}`;
}

export const client = {
  door: () => ask<Door>("api/door"),
  pair: (code: string) => post<undefined>("api/pair", { code }),
  shop: () => ask<Shop>("api/shop"),
  questions: () => ask<{ questions: Question[] }>("api/shop/questions"),
  start: (body: Json) => post<{ id: string }>("api/shop/builds", body),
  archive: (id: string, archived: boolean) => post<Shop>("api/shop/archive", { id, archived }),
  schema: () => ask<Json>("api/schema"),
  understand: (text: string, dimension: string, metric: boolean) =>
    ask<Understood>(
      `api/understand?dimension=${dimension}&text=${encodeURIComponent(text)}&metric=${metric}`,
    ),

  build: (where: Where) => ask<BuildAnswer>(routeOf(where)),
  report: (where: Where) => ask<{ etag: string; report: Report }>(routeOf(where, "/report")),
  scene: (where: Where) => ask<{ etag: string; scene: Scene }>(routeOf(where, "/scene")),
  pose: (where: Where, question: PoseQuestion) =>
    post<PoseAnswer>(routeOf(where, "/pose"), question),
  trial: (
    where: Where,
    shown: { work: ToldWork; axle: string | null },
    tried: Operation[] | Change,
  ) =>
    post<{ trial: Trial; scene: Scene }>(
      routeOf(where, "/trial", [
        `work=${shown.work}`,
        ...(shown.axle === null ? [] : [`axle=${encodeURIComponent(shown.axle)}`]),
      ]),
      tried,
    ),
  patch: (where: Where, etag: string, patch: Operation[]) =>
    ask<ChangeAnswer>(routeOf(where), {
      method: "PATCH",
      body: patch,
      type: "application/json-patch+json",
      etag,
    }),
  change: (where: Where, etag: string, change: Change) =>
    post<ChangeAnswer>(routeOf(where, "/change"), change, etag),
  dependants: (where: Where, path: Path) =>
    ask<{ dependants: Dependant[] }>(
      routeOf(where, "/dependants", [`path=${encodeURIComponent(path)}`]),
    ),
  undo: (where: Where, etag: string) => post<ChangeAnswer>(routeOf(where, "/undo"), {}, etag),
  redo: (where: Where, etag: string) => post<ChangeAnswer>(routeOf(where, "/redo"), {}, etag),
  restore: (where: Where, etag: string, entry: number) =>
    post<ChangeAnswer>(routeOf(where, "/restore"), { entry }, etag),
  history: (where: Where, before: number | null) =>
    ask<History>(routeOf(where, "/history", before === null ? [] : [`before=${before}`])),
  nameVersion: (where: Where, entry: number, name: string) =>
    post<History>(routeOf(where, "/versions"), { entry, name }),
  next: (where: Where) =>
    ask<{ readings: Reading[] }>(routeOf(where, "/next"), { patience_ms: kLongPatience_ms }),
  frameDrawing: (where: Where, id: string) =>
    ask<{ etag: string; drawing: FrameDrawing }>(
      routeOf(where, "/frame/drawing", [`case=${encodeURIComponent(id)}`]),
    ),
  frameSections: (where: Where) =>
    ask<{ etag: string; sections: FrameSection[] }>(routeOf(where, "/frame/sections")),
  compare: (build: string, a: string | null, b: string | null) =>
    ask<Comparison>(
      routeOf({ build, variant: null }, "/compare", [
        ...(a === null ? [] : [`a=${encodeURIComponent(a)}`]),
        ...(b === null ? [] : [`b=${encodeURIComponent(b)}`]),
      ]),
    ),
};
