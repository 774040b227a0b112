// What the shop's server answers, made from its published description (openapi.ts).
import type { components, paths } from "./openapi";
import type { Diagnostic, Json, Report, Scene } from "./types";

type Schemas = components["schemas"];

export type Shop = Schemas["Shop"];
export type ShopBuild = Schemas["Listing"];
export type Question = Schemas["Question"];

/** The build file is told apart by its own schema: here it is any JSON. */
export type BuildAnswer = Omit<Schemas["BuildAnswer"], "document"> & { document: Json };

/** After anything that has changed the build; `path`: where a renamed or copied thing is now. */
export type ChangeAnswer = Omit<Schemas["ChangeAnswer"], "document" | "report" | "scene"> & {
  document: Json;
  report: Report;
  scene: Scene;
};

export type Conflict = Schemas["Conflict"];
export type Dependant = Schemas["Dependant"];
export type Change = Schemas["Change"];
export type HistoryEntry = Schemas["HistoryEntry"];
export type History = Schemas["History"];
export type HeadEvent = Schemas["HeadEvent"];
export type Understood = Schemas["Understood"];

export interface ComparedSide {
  label: string;
  report: Report;
  scene: Scene;
}

export type Comparison = Omit<Schemas["Comparison"], "a" | "b"> & {
  a: ComparedSide;
  b: ComparedSide;
};

/** Whether this screen is let in, and how long a code is good for. */
export type Door = paths["/api/door"]["get"]["responses"]["200"]["content"]["application/json"];

export type Reading = Schemas["Reading"];

export interface ErrorBody {
  error: string;
  diagnostics?: Diagnostic[];
  conflicts?: Conflict[];
  dependants?: Dependant[];
  etag?: string;
}
