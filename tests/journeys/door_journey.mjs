// A tablet on the shop's network: the code that the program prints lets it in, once.
//   node door_journey.mjs BINARY BUILD_FILE
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import {
  atBench,
  kSizes,
  makeShooter,
  show,
  smallTargets,
  step,
  type,
  unexpected,
} from "./bench.mjs";
import { openBrowser, seriousFaults } from "./browser.mjs";
import { openShop } from "./program.mjs";

const [binary, file] = process.argv.slice(2);
if (!file) throw new Error("Usage: door_journey.mjs BINARY BUILD_FILE");
const shoot = await makeShooter();
const shop = await openShop(binary, [file], ["--lan"]);
const [id] = shop.ids;
const tablet = await openBrowser({ ...kSizes.portrait, touch: true });
const { page, complaints } = tablet;
await page.addInitScript(() => {
  if (location.protocol.startsWith("http")) localStorage.setItem("rigwright.initials", "TC");
});

const codes = () => [...shop.told().matchAll(/code (\d{6})/g)].map((found) => found[1]);
const giveCode = async (code) => {
  await page.locator("input[name=code]").fill(code);
  await page.getByRole("button", { name: "Come in" }).click();
};
const onDisk = async () => JSON.parse(await readFile(shop.copies[0], "utf8"));

try {
  await step("a screen that is not paired sees the door and nothing else", async () => {
    await page.goto(`${shop.url}#${id}`);
    await page.waitForSelector(".door");
    assert.equal(await page.locator(".bench").count(), 0);
    assert.deepEqual(await smallTargets(page), []);
    assert.deepEqual(await seriousFaults(page), []);
    await shoot(page, "door-portrait-light");
  });

  await step("a wrong code is told so", async () => {
    await giveCode(codes().at(-1) === "000000" ? "000001" : "000000");
    await page.getByText("That is not the code").waitFor();
    await page.getByText("for 10 minutes").waitFor();
    assert.match(shop.told(), /code \d{6}, good for 10 minutes/);
  });

  await step("the code opens the build that was asked for", async () => {
    await giveCode(codes().at(-1));
    await atBench(page);
  });

  await step(
    "a screen that is forgotten meanwhile is asked again, and its entry stands",
    async () => {
      await show(page, "Weigh");
      await page.context().clearCookies();
      await type(page, "/ratings/gross_vehicle", "8450 lb");
      await page.waitForSelector(".door");
      await giveCode(codes().at(-1));
      await atBench(page);
      for (const begun = Date.now(); ; ) {
        const { ratings } = await onDisk();
        const told = ratings.gross_vehicle?.value ?? ratings.gross_vehicle;
        if (told === "8450 lb") break;
        assert.ok(Date.now() - begun < 15_000, `it is ${told}`);
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
    },
  );

  await step("each code was good once", () => {
    assert.equal(codes().length, 3);
    assert.equal(new Set(codes()).size, 3);
  });
  assert.deepEqual(unexpected(complaints, ["401", "403", "Failed to load resource"]), []);
} finally {
  await tablet.close();
  await shop.close();
}
