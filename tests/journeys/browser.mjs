// Debian's Chromium driven through playwright-core, which is a development dependency of web/.
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

const require = createRequire(new URL("../../web/package.json", import.meta.url));
const { chromium } = loadPlaywright();

/** Ends with the code that ctest knows as skipped when the page's packages are not installed. */
function loadPlaywright() {
  try {
    return require("playwright-core");
  } catch {
    console.error("The page's packages are not installed: run npm ci in web/.");
    process.exit(77);
  }
}

const kArguments = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
];

/** A browser with an empty profile; `close` also removes the profile. */
export async function openBrowser({ width, height, touch = false, scheme = "light" }) {
  const profile = await mkdtemp(join(tmpdir(), "rigwright-profile-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    headless: true,
    args: kArguments,
    viewport: { width, height },
    hasTouch: touch,
    colorScheme: scheme,
    deviceScaleFactor: 1,
  });
  if (process.env.RIG_PAGE) await layPageOver(context, process.env.RIG_PAGE);
  const page = context.pages()[0] ?? (await context.newPage());
  const complaints = [];
  page.on("console", (message) => {
    // Taking a picture reads the canvas back, of which the graphics driver complains.
    const isDriver = message.text().includes("GL Driver Message");
    if (["error", "warning"].includes(message.type()) && !isDriver) complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("requestfailed", (request) => {
    // The page itself ends the stream of events when it leaves a build.
    const isEnded =
      request.url().endsWith("/events") && request.failure()?.errorText === "net::ERR_ABORTED";
    if (!isEnded) complaints.push(`not fetched: ${request.url()}`);
  });
  const close = async () => {
    await context.close();
    await rm(profile, { recursive: true, force: true });
  };
  return { page, complaints, close };
}

/** For working on the page: its files from a folder instead of those in the program. */
async function layPageOver(context, folder) {
  const lay = (route) => {
    const name = new URL(route.request().url()).pathname.slice(1) || "index.html";
    return route.fulfill({ path: join(folder, name) });
  };
  for (const name of ["", "index.html", "page.js", "page.css"]) {
    await context.route((url) => url.pathname === `/${name}`, lay);
  }
}

/** The page's accessibility faults that axe calls serious or critical. They are sought out in the page: all that axe
 * tells takes longer to bring over than to find. */
export async function seriousFaults(page) {
  if (!(await page.evaluate(() => "axe" in globalThis))) {
    await page.evaluate(await readFile(require.resolve("axe-core/axe.min.js"), "utf8"));
  }
  return page.evaluate(async () => {
    const { violations } = await globalThis.axe.run({ resultTypes: ["violations"] });
    return violations
      .filter((v) => v.impact === "serious" || v.impact === "critical")
      .map((v) => `${v.id}: ${v.help}: ${v.nodes.map((n) => n.target.join(" ")).join("; ")}`);
  });
}
