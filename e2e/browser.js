// One browser for all tests of a file; each test has its own context, which notes everything that
// must never happen: an error in the console, a request to another host.

import { access } from "node:fs/promises";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const PLACES = [process.env.CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];

async function executable() {
  for (const path of PLACES.filter(Boolean)) {
    try {
      await access(path);
      return path;
    } catch {
      // The next one.
    }
  }
  throw new Error("no Chromium: install Debian's package chromium, or name the program in CHROMIUM");
}

/** A browser; the sandbox needs a user that is not root. */
export async function browse() {
  const args = process.getuid?.() === 0 ? ["--no-sandbox"] : [];
  return chromium.launch({ executablePath: await executable(), args });
}

/** A page at an address that keeps count of what must not happen. */
export async function visit(browser, server, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  const faults = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") faults.push(message.text());
  });
  page.on("pageerror", (error) => faults.push(String(error)));
  context.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(server.origin) && !url.startsWith("data:")) faults.push(`asked ${url}`);
  });
  await page.goto(server.address);
  return { page, context, faults };
}

const axeSource = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** What axe-core finds serious or critical, in words. */
export async function axe(page) {
  // The page's policy forbids scripts that are not its own: this goes round it, as an extension does.
  await page.evaluate(await (await import("node:fs/promises")).readFile(axeSource, "utf8"));
  const { violations } = await page.evaluate(() => globalThis.axe.run(document));
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, help, nodes }) => `${id}: ${help} at ${nodes.map((node) => node.target).join(", ")}`);
}

/** By how many pixels the page scrolls sideways; 0 is right. */
export const sideways = (page) =>
  page.evaluate(() => document.scrollingElement.scrollWidth - document.scrollingElement.clientWidth);
