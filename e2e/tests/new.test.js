// A new build, from the questions through the verdict to its year.

import assert from "node:assert/strict";
import { access, readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, afterEach, before, beforeEach, describe, test } from "node:test";
import { browse, visit } from "../browser.js";
import { json, serve } from "../server.js";

describe("a new build", () => {
  let browser, server, page, context, faults;

  before(async () => {
    server = await serve();
    browser = await browse();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });
  beforeEach(async () => {
    ({ page, context, faults } = await visit(browser, server, { at: "/new" }));
  });
  afterEach(async () => {
    await context.close();
    assert.deepEqual(faults, []);
  });
  const answer = async () => {
    for (const [name, value] of [
      ["Panel, lower edge", "5 m"],
      ["Panel, upper edge", "6 m"],
      ["Base of the cistern or store", "4 m"],
      ["Water in the circuit’s header tank", "6.5 m"],
      ["Highest hot tap or shower head", "2 m"],
      ["People in the house", "2"],
    ]) {
      await page.getByRole("textbox", { name }).fill(value);
    }
    await page.getByRole("radio", { name: /^A cylinder, all of it kept at 60/ }).check();
  };

  test("a cistern that feeds cold taps is not built as it stands, and the page says why", async () => {
    await answer();
    await page.getByRole("checkbox", { name: "Only the hot-water cylinder" }).uncheck();
    await page.getByRole("checkbox", { name: "Cold taps" }).check();
    await page.getByRole("heading", { name: "Not to be built as it stands" }).waitFor();
    await page.getByText(/Stop:/).first().waitFor();
    assert.match(await page.getByRole("main").textContent(), /cold taps?/i);
  });

  test("a cistern for the cylinder alone becomes a build with its year", async () => {
    await answer();
    await page.getByRole("checkbox", { name: "Only the hot-water cylinder" }).check();
    await page.getByText("Nobody said yet what the cistern feeds").waitFor({ state: "detached" });
    await page.getByRole("textbox", { name: "Name of the build" }).fill("back lane");
    await page.getByRole("button", { name: /^Make the build/ }).click();
    await page.waitForURL(/\/builds\/back/, { timeout: 15_000 });
    const file = join(server.book, "back lane.toml");
    await access(file);
    assert.match(await readFile(file, "utf8"), /\[store\]/);
    const kwh = Math.round((await json("year", "--json", "--no-band", file)).year.spared_heat_kwh);
    await page.getByRole("heading", { level: 1, name: new RegExp(`heater ${kwh}\\s*kWh`) }).waitFor({ timeout: 15_000 });
    await page.goto(`${server.origin}/builds`);
    await page.getByRole("link", { name: "back lane" }).first().waitFor();
  });

  test("a height that is no height is said beside its field", async () => {
    await answer();
    await page.getByRole("textbox", { name: "Panel, lower edge" }).fill("3 l/min");
    await page.getByRole("textbox", { name: "Panel, lower edge" }).press("Tab");
    await page.locator("[aria-invalid=true]").waitFor();
    assert.match(await page.getByRole("main").textContent(), /flow/);
  });
});
