/*
 * Draws the icons of the installed page from dashboard/favicon.svg: `node dashboard/offline/make-icons.mjs`.
 * `icon-…` is the drawing as it is; `icon-full-…` fills its square and keeps the drawing within the circle (80 % across)
 * that a system may cut out of it (W3C, Web Application Manifest, maskable icons).
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

const paper = '#f7f7f2';
const sizes = [192, 512];
const kinds = [
  { name: 'icon', share: 1, ground: 'transparent' },
  { name: 'icon-full', share: 0.6, ground: paper },
];

const drawing = readFileSync(new URL('../favicon.svg', import.meta.url), 'utf8');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
const page = await browser.newPage();
for (const size of sizes) {
  for (const { name, share, ground } of kinds) {
    await page.setViewportSize({ width: size, height: size });
    await page.setContent(`<style>
      body { margin: 0; display: grid; place-items: center; height: 100vh; background: ${ground} }
      svg { width: ${share * 100}vw }
    </style>${drawing}`);
    const image = await page.screenshot({ omitBackground: true });
    writeFileSync(new URL(`./icons/${name}-${size}.png`, import.meta.url), image);
  }
}
await browser.close();
