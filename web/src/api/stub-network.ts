import { vi } from "vitest";
import { answer, type MockState } from "../../mock/shop.mjs";

/** Puts the mock in the place of the network, for unit tests. */
export function stubNetwork(server: MockState, schema: unknown = {}): void {
  vi.stubGlobal("fetch", async (route: string, init?: RequestInit) => {
    if (route.endsWith("/events")) return new Response(new ReadableStream());
    const body = init?.body ? JSON.parse(String(init.body)) : null;
    const headers = Object.fromEntries(
      Object.entries(init?.headers ?? {}).map(([k, v]) => [k.toLowerCase(), String(v)]),
    );
    const [status, reply] =
      route === "api/schema"
        ? [200, schema]
        : answer(server, init?.method ?? "GET", `/${route}`, body, headers);
    return new Response(JSON.stringify(reply), { status });
  });
}
