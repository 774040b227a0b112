// Serves the page's contract (docs/openapi.json) with an invented truck. For developing only:
//   npm run mock      then      npm run dev      or open the mock itself, which serves dist/.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { answer, makeState } from "./shop.mjs";

const kSchema = new URL("../../docs/schema/build-1.schema.json", import.meta.url);
const kTypes = { html: "text/html; charset=utf-8", js: "text/javascript", css: "text/css" };
const kPicture = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 16"/>';
const folder = process.argv[3] ?? "dist";

async function readBody(request) {
  let text = "";
  for await (const piece of request) text += piece;
  return text === "" ? null : JSON.parse(text);
}

const state = makeState();
const listeners = new Set();
const port = Number(process.argv[2] ?? 8731);
createServer(async (request, response) => {
  const route = new URL(request.url, "http://localhost").pathname;
  const reply = (status, type, body) => {
    response.writeHead(status, { "Content-Type": type });
    response.end(body);
  };
  if (route === "/api/schema") return reply(200, "application/json", await readFile(kSchema));
  if (route.endsWith("/picture.svg")) return reply(200, "image/svg+xml", kPicture);
  if (route.endsWith("/events")) {
    response.writeHead(200, { "Content-Type": "text/event-stream" });
    response.write(": here\n\n");
    listeners.add(response);
    response.on("close", () => listeners.delete(response));
    return;
  }
  if (route.startsWith("/api/")) {
    const body = await readBody(request);
    const [status, told] = answer(state, request.method, request.url, body, request.headers);
    if (request.method !== "GET" && told.entry !== undefined) {
      const { etag, entry } = told;
      const data = JSON.stringify({ etag, entry, screen: request.headers["rig-screen"], who: "" });
      for (const one of listeners) one.write(`event: head\ndata: ${data}\n\n`);
    }
    return reply(status, "application/json", JSON.stringify(told));
  }
  const name = route === "/" ? "index.html" : route.slice(1);
  try {
    const file = await readFile(
      new URL(`../${folder}/${name.replaceAll("..", "")}`, import.meta.url),
    );
    reply(200, kTypes[name.split(".").at(-1)] ?? "application/octet-stream", file);
  } catch {
    reply(404, "text/plain", "There is nothing here.");
  }
}).listen(port, "127.0.0.1", () => console.log(`Mock on http://127.0.0.1:${port}`));
