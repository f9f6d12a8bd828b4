// A day is played on the drawings.

import assert from "node:assert/strict";
import { after, afterEach, before, beforeEach, describe, test } from "node:test";
import { browse, visit } from "../browser.js";
import { serve } from "../server.js";

describe("the day strip", () => {
  let browser, server, page, context, faults;

  before(async () => {
    server = await serve();
    browser = await browse();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });
  afterEach(async () => {
    await context.close();
    assert.deepEqual(faults, []);
  });
  const open = async (options) => {
    ({ page, context, faults } = await visit(browser, server, { at: "/builds/first-panel", ...options }));
    await page.getByText(/^\d\d:\d\d\. Light into the sheet/).first().waitFor();
  };
  const strip = () => page.getByRole("region", { name: "A day played" });
  const minute = async () => Number(await handle().inputValue());
  const handle = () => strip().getByRole("slider", { name: "Minute of the day" });
  const words = () => strip().getByRole("status").textContent();
  const clock = (minutes) => `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

  describe("in motion", () => {
    beforeEach(() => open());

    test("it plays at a minute a frame, says the minute, and stops when asked", async () => {
      await handle().fill("600");
      await strip().getByRole("button", { name: "Play the day" }).click();
      await page.waitForFunction(() => Number(document.getElementById("strip-at").value) > 630);
      await strip().getByRole("button", { name: "Pause" }).click();
      const at = await minute();
      assert.equal((await words()).slice(0, 5), clock(at));
      await page.waitForTimeout(300);
      assert.equal(await minute(), at);
    });

    test("buttons and keys move it by a minute and an hour", async () => {
      await handle().fill("600");
      for (const [name, by] of [["One minute on", 1], ["One hour on", 60], ["One minute back", -1], ["One hour back", -60]]) {
        const from = await minute();
        await strip().getByRole("button", { name }).click();
        assert.equal(await minute(), from + by, name);
      }
      await handle().focus();
      for (const [key, by] of [["ArrowRight", 1], ["ArrowLeft", -1], ["PageUp", 60], ["PageDown", -60]]) {
        const from = await minute();
        await page.keyboard.press(key);
        assert.equal(await minute(), from + by, key);
      }
      assert.equal(await handle().getAttribute("aria-valuetext"), await words());
      await page.keyboard.press(" ");
      await strip().getByRole("button", { name: "Pause" }).waitFor();
      await page.keyboard.press(" ");
      await strip().getByRole("button", { name: "Play the day" }).waitFor();
    });

    test("the store's temperature it says is the series' of that minute", async () => {
      await handle().fill("820");
      const said = await words();
      const day = Number(await strip().getAttribute("data-day"));
      const from = day * 1440 + 800;
      const answer = await context.request.get(`${server.origin}/builds/first-panel/column/store-top?from=${from}&to=${from + 60}`);
      const bytes = await answer.body();
      assert.equal(said.match(/store ([\d.]+)\s?°C at the top/)[1], bytes.readFloatLE(20 * 4).toFixed(1));
    });

    test("another day is another day", async () => {
      const first = await strip().locator("b").first().textContent();
      await strip().getByRole("button", { name: "Typical winter" }).click();
      await page.waitForFunction((was) => document.getElementById("strip-date").textContent !== was, first);
      const winter = await strip().locator("b").first().textContent();
      assert.match(winter, /December|January|February/);
      await strip().getByRole("button", { name: "Day after" }).click();
      await page.waitForFunction((was) => document.getElementById("strip-date").textContent !== was, winter);
    });
  });

  test("nothing plays by itself", async () => {
    await open();
    const at = await minute();
    await page.waitForTimeout(1000);
    assert.equal(await minute(), at);
  });

  test("with less motion wished for it goes by quarters of an hour", async () => {
    await open({ reducedMotion: "reduce" });
    await handle().fill("600");
    await strip().getByRole("button", { name: "Play the day" }).click();
    await page.waitForFunction(() => document.getElementById("strip-at").value !== "600");
    await strip().getByRole("button", { name: "Pause" }).click();
    assert.equal((await minute() - 600) % 15, 0);
  });
});
