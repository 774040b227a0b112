// What the journeys do on the page again and again.
import assert from "node:assert/strict";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { openBrowser } from "./browser.mjs";

export const kSizes = {
  landscape: { width: 1280, height: 800 },
  portrait: { width: 800, height: 1280 },
};
const kLeastTarget_px = 48;

export async function step(name, run) {
  const start = performance.now();
  await run();
  console.log(`ok  ${name} (${Math.round(performance.now() - start)} ms)`);
}

/** Takes a picture of the page, for a person to look at, if RIG_PICTURES names a folder for them. */
export async function makeShooter() {
  const folder = process.env.RIG_PICTURES;
  if (!folder) return async () => {};
  await mkdir(folder, { recursive: true });
  return (page, name) => page.screenshot({ path: join(folder, `${name}.png`) });
}

/** A page on a build; `initials` so that the history's question is not asked. */
export async function openOn(url, id, options = {}) {
  const browser = await openBrowser({ ...kSizes.landscape, ...options });
  const { initials = "TC" } = options;
  await browser.page.addInitScript((text) => {
    const isPage = location.protocol.startsWith("http");
    if (isPage && text !== null) localStorage.setItem("rigwright.initials", text);
  }, initials);
  await browser.page.goto(`${url}#${id}`);
  await atBench(browser.page);
  return browser;
}

export async function atBench(page) {
  await page.waitForSelector(".bench");
  await page.waitForFunction(() => document.querySelectorAll(".part path").length > 0);
}

export const show = (page, work) =>
  page.getByRole("navigation", { name: "Works" }).getByRole("button", { name: work }).click();

/** Until no entry is on its way any more: the entry's number stands still. */
export async function untilAllIsAnswered(page) {
  const revision = page.locator(".revision");
  let before = "";
  for (let now = await revision.textContent(); now !== before; now = await revision.textContent()) {
    before = now;
    await page.waitForTimeout(2000);
  }
}

export const field = (page, path) => page.locator(`[data-path="${path}"]`).first();

/** The build as the program has it. */
export async function documentOf(url, id, variant = "") {
  const asked = variant === "" ? "" : `?variant=${variant}`;
  const answer = await fetch(`${url}api/builds/${id}${asked}`);
  return (await answer.json()).document;
}

export function at(document, path) {
  return path
    .split("/")
    .slice(1)
    .reduce((here, key) => here?.[key], document);
}

/** The text of a quantity, in short or long form. */
export const textOf = (value) => value?.value ?? value;

/** Waits until the program has the value, and tells what it has. */
export async function untilHas(url, id, path, isIt, variant = "") {
  const begun = Date.now();
  for (;;) {
    const value = at(await documentOf(url, id, variant), path);
    if (isIt(value)) return value;
    assert.ok(Date.now() - begun < 5000, `${path} became ${JSON.stringify(value)}`);
    await new Promise((resolve) => setTimeout(resolve, 40));
  }
}

/** Waits until the page shows the program's newest state. */
export async function untilCurrent(page, url, id) {
  const { entry } = await (await fetch(`${url}api/builds/${id}`)).json();
  await page.waitForFunction(
    (text) => document.querySelector(".revision")?.textContent === text,
    `Entry ${entry}`,
  );
}

/** Opens a thing's card by the keyboard, which reaches every part that is drawn. */
export async function chooseOnTruck(page, path) {
  await page.locator(`.face.side [data-path="${path}"]`).first().focus();
  await page.keyboard.press("Enter");
  await page.waitForSelector(".chosen-card");
}

/** Adds one to the collection of this title; its card opens. */
export async function addTo(page, title, name) {
  const box = page.locator(`section.collection[aria-label="${title}"]`);
  await box.locator(".add-one input").fill(name);
  await box.getByRole("button", { name: "Add" }).click();
  await page.waitForFunction(
    (text) => document.querySelector(".chosen-card h3")?.textContent === text,
    name,
  );
}

/** Types a value into a field and leaves it. */
export async function type(page, path, text) {
  const input = page
    .locator(`input[data-path="${path}"], input[data-path="${path}/value"]`)
    .first();
  await input.fill(text);
  await input.press("Enter");
}

/** Moves the mouse in the page itself from a point's handle, a step a frame; gives how many frames were drawn and how many answers came a second. */
export function dragInPage(handle, frames) {
  return handle.evaluate(
    (target, count) =>
      new Promise((resolve) => {
        const svg = target.closest("svg");
        const box = target.getBoundingClientRect();
        const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
        const send = (kind, i) =>
          svg.dispatchEvent(
            new PointerEvent(kind, {
              bubbles: true,
              pointerId: 1,
              pointerType: "mouse",
              button: 0,
              // Out by some inches and most of the way back, as a hand looking for a place.
              clientX: from.x + 10 * Math.sin(i / 12) + 3 * Math.min(i, 1),
              clientY: from.y - 8 * Math.sin(i / 15) - 4 * Math.min(i, 1),
            }),
          );
        svg.setPointerCapture = () => {};
        let answers = 0;
        const real = window.fetch;
        window.fetch = async (route, init) => {
          const answer = await real(route, init);
          if (String(route).includes("/trial")) answers++;
          return answer;
        };
        send("pointerdown", 0);
        // A hand goes further than the few pixels by which a tap is told from a drag.
        send("pointermove", 18);
        let i = 18;
        const last = i + count;
        const start = performance.now();
        const next = () => {
          i++;
          send("pointermove", i);
          if (i < last) requestAnimationFrame(next);
          else {
            const seconds = (performance.now() - start) / 1000;
            window.fetch = real;
            send("pointerup", i);
            resolve({ frames: count / seconds, answers: answers / seconds });
          }
        };
        requestAnimationFrame(next);
      }),
    frames,
  );
}

/** What can be touched and is smaller than a gloved finger. */
export function smallTargets(page) {
  return page.evaluate((least) => {
    const touched =
      "button, select, input:not([type=checkbox]):not(.sr-only), summary, .check, .flag label, a";
    return [...document.querySelectorAll(touched)].flatMap((element) => {
      const { width, height } = element.getBoundingClientRect();
      const isSmall = width > 0 && Math.min(width, height) < least - 0.5;
      return isSmall ? [`${element.className} ${element.textContent} ${width} x ${height}`] : [];
    });
  }, kLeastTarget_px);
}

/** Complaints but for those that the journey itself has caused: refused entries, a stopped program. */
export function unexpected(complaints, caused = []) {
  return complaints.filter((c) => !caused.some((words) => c.includes(words)));
}
