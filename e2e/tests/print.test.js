// On paper.

import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { browse, visit } from "../browser.js";
import { serve } from "../server.js";

describe("paper", () => {
  let browser, server;

  before(async () => {
    server = await serve();
    browser = await browse();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });

  /** How many pages a sheet takes, and how large the first is in millimetres. */
  const printed = async (at, inFeet = false) => {
    const { page, context, faults } = await visit(browser, server, { at });
    if (inFeet) await page.getByRole("button", { name: "in, °F" }).click();
    await page.locator(inFeet ? '[data-units="us"] main' : "main").waitFor();
    await page.waitForTimeout(500);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    await context.close();
    assert.deepEqual(faults, []);
    const box = pdf.match(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/).slice(1).map((points) => Math.round((points * 25.4) / 72));
    return { pages: pdf.match(/\/Type \/Page\b/g).length, box };
  };

  test("the year is printed on A4, its stations whole", async () => {
    const { pages, box } = await printed("/builds/first-panel");
    assert.deepEqual(box, [210, 297]);
    // Pins today's layout, a phone's beside the column: more pages would mean that a station was torn.
    assert.ok(pages <= 14, `${pages} pages`);
  });

  test("who reads feet and inches gets Letter", async () => {
    const { box } = await printed("/builds/first-panel", true);
    assert.deepEqual(box, [216, 279]);
  });

  test("on paper nothing can be pressed, and values stay", async () => {
    const { page, context } = await visit(browser, server, { at: "/builds/first-panel" });
    await page.emulateMedia({ media: "print" });
    assert.deepEqual(await page.getByRole("button").allTextContents(), []);
    assert.ok(await page.getByRole("heading", { level: 1, name: /heater/ }).isVisible());
    assert.ok(await page.getByRole("textbox", { name: /^Sun: Slope/ }).isVisible());
    await context.close();
  });

  test("a series takes a few pages with its table whole", async () => {
    const { pages } = await printed("/builds/first-panel/series?zoom=day&at=233280");
    assert.ok(pages <= 3, `${pages} pages`);
  });
});
