// The list of builds, a new build and the sums, with a script and without.

import assert from "node:assert/strict";
import { access, readFile } from "node:fs/promises";
import { join } from "node:path";
import { after, before, describe, test } from "node:test";
import { axe, browse, sideways, visit } from "../browser.js";
import { serve } from "../server.js";

const WIDTHS = [320, 390, 720, 1024, 1440, 2560];
const SHEETS = ["/builds", "/new", "/sums", "/sums/collector", "/sums/tube?outside=15+mm&wall=3+l"];

describe("the sheets that list", () => {
  let browser, server;

  before(async () => {
    server = await serve();
    browser = await browse();
  });
  after(async () => {
    await browser?.close();
    await server?.stop();
  });

  /** Opens a sheet, does something on it, and holds it to what must never happen. */
  const on = async (at, options, what) => {
    const { page, context, faults } = await visit(browser, server, { at, ...options });
    await what(page);
    await context.close();
    // A refused form is a 409 that the browser notes by itself.
    assert.deepEqual(faults.filter((fault) => !fault.includes("409")), []);
  };

  test("years come into the list as they are worked out", () =>
    on("/builds", {}, async (page) => {
      await page.getByText("Being worked out").first().waitFor();
      await page.waitForFunction(() => !document.body.textContent.includes("Being worked out"), null, { timeout: 120_000 });
      assert.equal(await page.getByText(/kWh spared, \d+ in every 100/).count(), 9);
      assert.equal(await page.getByRole("img", { name: /^A column as wide as the year/ }).count(), 9);
    }));

  for (const javaScriptEnabled of [true, false]) {
    const how = javaScriptEnabled ? "with a script" : "without a script";

    test(`${how} a build is copied, thrown away and taken back`, () =>
      on("/builds", { javaScriptEnabled }, async (page) => {
        const first = page.getByRole("listitem").filter({ hasText: "first-panel.toml" });
        await first.getByText(/^Copy/).first().click();
        assert.equal(await first.getByLabel("Name of the copy").inputValue(), "first-panel-2");
        await first.getByLabel("Name of the copy").fill("radiator-pair");
        await first.getByRole("button", { name: "Copy it and look at the copy" }).click();
        await page.getByRole("alert").filter({ hasText: "There is a build `radiator-pair` already" }).waitFor();
        const field = first.getByLabel("Name of the copy");
        assert.equal(await field.inputValue(), "radiator-pair");
        const name = javaScriptEnabled ? "tried" : "tried too";
        await field.fill(name);
        await first.getByRole("button", { name: "Copy it and look at the copy" }).click();
        await page.waitForURL(`**/builds/${encodeURIComponent(name)}`);
        const file = join(server.book, `${name}.toml`);
        await access(file);
        await page.goto(new URL("/builds", server.address).href);
        const copy = page.getByRole("listitem").filter({ hasText: `${name}.toml` });
        await copy.getByText(/^Move to the bin/).click();
        await copy.getByRole("button", { name: `Move ${name} to the bin` }).click();
        await page.getByRole("button", { name: `Take back ${name}` }).click();
        await page.getByRole("listitem").filter({ hasText: `${name}.toml` }).waitFor();
        await access(file);
      }));

    test(`${how} a new build begins with the loft`, () =>
      on("/new", { javaScriptEnabled }, async (page) => {
        const look = async () => {
          if (!javaScriptEnabled) await page.getByRole("button", { name: "Look at these answers" }).click();
        };
        await page.getByLabel("Cold taps").check();
        await page.getByLabel("Base of the cistern or store").fill("5.2");
        await look();
        await page.getByText("The cistern feeds cold taps").waitFor();
        await page.getByRole("img", { name: "Where everything stands" }).waitFor();
        await page.getByLabel("Slope of the panel").fill("steep");
        await look();
        await page.getByText("an angle belongs here").waitFor();
        await page.getByLabel("Slope of the panel").fill("40");
        await page.getByLabel("Place, for the sun").selectOption("thames");
        const name = javaScriptEnabled ? "from answers" : "from answers too";
        await page.getByLabel("Name of the build").fill(name);
        await page.getByRole("button", { name: "Make the build that is drawn" }).click();
        await page.waitForURL(`**/builds/${encodeURIComponent(name)}`);
        await page.getByRole("heading", { level: 1, name: /spares the heater/ }).waitFor({ timeout: 30_000 });
        assert.match(await readFile(join(server.book, `${name}.toml`), "utf8"), /tilt = "40 deg"/);
      }));
  }

  test("a sum is reckoned, and its fault stands at its field", () =>
    on("/sums", {}, async (page) => {
      await page.getByRole("link", { name: "tube", exact: true }).click();
      await page.getByLabel(/^wall/).fill("1 mm");
      await page.getByRole("button", { name: "Reckon" }).click();
      assert.match(page.url(), /wall=1\+mm/);
      await page.getByRole("rowheader", { name: /^bore/ }).first().waitFor();
      await page.getByLabel(/^wall/).fill("3 l");
      await page.getByRole("button", { name: "Reckon" }).click();
      await page.getByRole("alert").waitFor();
      assert.equal(await page.getByLabel(/^wall/).inputValue(), "3 l");
    }));

  for (const at of SHEETS) {
    test(`${at} fits every width and has no fault of access`, async () => {
      for (const width of WIDTHS) {
        await on(at, { viewport: { width, height: 900 } }, async (page) => {
          assert.equal(await sideways(page), 0, `${width} px`);
        });
      }
      for (const colorScheme of ["light", "dark"]) {
        await on(at, { colorScheme, bypassCSP: true }, async (page) => {
          assert.deepEqual(await axe(page), []);
        });
      }
    });
  }
});
