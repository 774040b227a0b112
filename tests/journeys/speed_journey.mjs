// How long it takes from an entry to the page that shows its answer, how many answers a second come while a point is dragged, and how long from opening, with the program already running or not, to
// the first paint.
// The largest of the builds is taken. The figures are told and not judged: they belong to the machine.
//   node speed_journey.mjs BINARY EDITS BUILD_FILE...
import { stat } from "node:fs/promises";
import { chooseOnTruck, dragInPage, openOn, step, untilAllIsAnswered } from "./bench.mjs";
import { openBrowser } from "./browser.mjs";
import { openProgram, openShop } from "./program.mjs";

const [binary, edits, ...files] = process.argv.slice(2);
if (files.length === 0) throw new Error("Usage: speed_journey.mjs BINARY EDITS BUILD_FILE...");
const openings = Math.min(Number(edits), 7);
const sizes = await Promise.all(files.map(async (file) => (await stat(file)).size));
const largest = files[sizes.indexOf(Math.max(...sizes))];

const shop = await openShop(binary, [largest]);
const [id] = shop.ids;
const { scene } = await (await fetch(`${shop.url}api/builds/${id}/scene`)).json();
const link = scene.parts.find((p) => p.kind === "bar" && p.path.includes("/links/"));
const height = `${link.b.path}/height`;
const pointOf = (part) => part.points?.[0] ?? part.b ?? part.at;
/** One for each work's sheet, as far as the build has it. */
const dragged = ["bar", "rail", "mount", "hitch"].flatMap(
  (kind) => scene.parts.find((p) => p.kind === kind && pointOf(p)?.path) ?? [],
);

/** Milliseconds from pressing a step key to the frame that shows the open sheet's part of the answer, and to the frame that shows
 * all of it. */
function timeOneEdit(page, path, direction) {
  return page.evaluate(
    ([at, way]) =>
      new Promise((resolve) => {
        const field = document.querySelector(`input[data-path="${at}"]`);
        const key = field.parentElement.querySelector(`[aria-label$="${way}"]`);
        let start = 0;
        let sheet = Number.POSITIVE_INFINITY;
        // The callback of a frame runs before it is painted; the message after it, when it has been.
        const drawn = (then) =>
          requestAnimationFrame(() => {
            const channel = new MessageChannel();
            channel.port1.onmessage = () => then(performance.now() - start);
            channel.port2.postMessage(null);
          });
        const real = window.fetch;
        window.fetch = async (route, init) => {
          const answer = await real(route, init);
          if (!String(route).includes("/trial")) return answer;
          const text = await answer.text();
          drawn((time) => {
            sheet = time;
          });
          return new Response(text, { status: answer.status, headers: answer.headers });
        };
        const watcher = new MutationObserver(() => {
          watcher.disconnect();
          window.fetch = real;
          drawn((whole) => resolve({ sheet: Math.min(sheet, whole), whole }));
        });
        watcher.observe(document.querySelector(".revision"), {
          characterData: true,
          childList: true,
          subtree: true,
        });
        start = performance.now();
        key.click();
      }),
    [path, direction],
  );
}

function tell(name, times) {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  console.log(
    `    ${name}: median ${at(0.5).toFixed(1)} ms, 95th percentile ${at(0.95).toFixed(1)} ms,` +
      ` greatest ${sorted.at(-1).toFixed(1)} ms, of ${sorted.length}`,
  );
}

const browser = await openOn(shop.url, id);
try {
  await step(`an edit of ${id} is answered and drawn`, async () => {
    const { page } = browser;
    await chooseOnTruck(page, link.path);
    const times = [];
    for (let i = 0; i < Number(edits); i++) {
      times.push(await timeOneEdit(page, height, i % 2 === 0 ? "more" : "less"));
      await page.waitForTimeout(20);
    }
    tell(
      "edit to the open sheet redrawn",
      times.map(({ sheet }) => sheet),
    );
    tell(
      "edit to all redrawn",
      times.map(({ whole }) => whole),
    );
  });
  for (const part of dragged) {
    await step(`${part.label} is dragged`, async () => {
      const { page } = browser;
      await chooseOnTruck(page, part.path);
      const { path } = pointOf(part);
      const ring = page.locator(`[data-face=side][data-handle="${path}"]`).first();
      await ring.waitFor();
      const { frames, answers } = await dragInPage(ring, 60);
      console.log(`    ${frames.toFixed(1)} frames and ${answers.toFixed(1)} answers a second`);
      await untilAllIsAnswered(page);
    });
  }
} finally {
  await browser.close();
}

const warm = await openBrowser({ width: 1280, height: 800 });
try {
  const paint = () =>
    performance.timeOrigin + performance.getEntriesByName("first-contentful-paint")[0].startTime;
  /** Opens the page; gives when it first painted, by the clock of the machine. */
  const open = async (url) => {
    await warm.page.goto("about:blank");
    const begun_ms = Date.now();
    await warm.page.goto(url);
    await warm.page.waitForSelector(".part path");
    await warm.page.waitForFunction(
      () => performance.getEntriesByName("first-contentful-paint").length > 0,
    );
    return { begun_ms, painted_ms: await warm.page.evaluate(paint) };
  };
  await step("the page is opened", async () => {
    const times = [];
    for (let i = 0; i < openings; i++) {
      const { begun_ms, painted_ms } = await open(`${shop.url}#${id}`);
      times.push(painted_ms - begun_ms);
    }
    tell("first paint", times.slice(1));
  });
  await step("a build is opened by its command", async () => {
    const times = [];
    for (let i = 0; i < openings; i++) {
      const begun_ms = Date.now();
      const program = await openProgram(binary, largest);
      times.push((await open(program.url)).painted_ms - begun_ms);
      await program.close();
    }
    tell("first paint after the command", times.slice(1));
  });
} finally {
  await warm.close();
  await shop.close();
}
