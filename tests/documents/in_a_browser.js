// What tests/documents/in_a_browser.py has a browser do; prints one JSON object, see there.
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const { pathToFileURL } = require("node:url");

const [packages, browserPath, folder] = process.argv.slice(2);
const { chromium } = require(path.join(packages, "node_modules", "playwright-core"));
const axe = fs.readFileSync(path.join(packages, "node_modules", "axe-core", "axe.min.js"), "utf8");

// Narrow is the width at which WCAG 2.2, 1.4.10 (reflow), asks for no sideways scrolling.
const SIZES = {
  narrow: { width: 320, height: 640 },
  phone: { width: 390, height: 844 },
  laptop: { width: 1280, height: 800 },
};
const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"].concat([
  "--disable-background-networking", "--disable-component-update", "--disable-sync",
]);
// On top of the rules of level A and AA and good practice: level AAA for contrast, and size of targets.
const RULES = { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } };

async function seen(page) {
  await page.evaluate(axe);
  return page.evaluate(async (rules) => {
    const result = await axe.run(document, { rules });
    const root = document.scrollingElement;
    return {
      passes: result.passes.length,
      faults: result.violations.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(" ")}: ${v.help}`)),
      unsure: result.incomplete.flatMap((v) => v.nodes.map((n) => `${v.id}: ${n.target.join(" ")}`)),
      sideways: root.scrollWidth - root.clientWidth,
      broken: [...document.images].filter((i) => !i.complete || !i.naturalWidth).length,
    };
  }, RULES);
}

async function check(browser, file) {
  const views = [];
  for (const colorScheme of ["light", "dark"]) {
    for (const [size, viewport] of Object.entries(SIZES)) {
      const page = await browser.newPage({ viewport, colorScheme });
      const said = [];
      page.on("console", (message) => said.push(message.text()));
      page.on("pageerror", (error) => said.push(String(error)));
      page.on("request", (request) => {
        if (!/^(file|data):/.test(request.url())) said.push(`asks for ${request.url()}`);
      });
      await page.goto(pathToFileURL(file).href);
      const stem = file.replace(/\.html$/, "");
      await page.screenshot({ path: `${stem}.${size}.${colorScheme}.png`, fullPage: true });
      views.push({ view: `${size} ${colorScheme}`, said, ...(await seen(page)) });
      if (size === "laptop") {
        await page.emulateMedia({ media: "print", colorScheme });
        views.push({ view: `print ${colorScheme}`, said: [], ...(await seen(page)) });
        await page.pdf({ path: `${stem}.${colorScheme}.pdf`, format: "Letter", printBackground: true,
          preferCSSPageSize: false, margin: undefined });
      }
      await page.close();
    }
  }
  return views;
}

(async () => {
  const browser = await chromium.launch({ executablePath: browserPath, args: FLAGS });
  const told = { browser: browser.version(), documents: {} };
  for (const name of fs.readdirSync(folder).filter((n) => n.endsWith(".html")).sort()) {
    told.documents[name] = await check(browser, path.join(folder, name));
  }
  await browser.close();
  process.stdout.write(JSON.stringify(told));
})();
