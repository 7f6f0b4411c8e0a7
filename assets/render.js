/** Draws icon.svg at the sizes the spreadsheet host asks for: `node assets/render.js` after a change to it. */
import { readFile, writeFile } from 'node:fs/promises';
import { chromium } from 'playwright-core';

const svg = await readFile(new URL('icon.svg', import.meta.url), 'utf8');
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-background-networking'],
});
for (const size of [16, 32, 64, 80]) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${svg}`);
  await writeFile(new URL(`icon-${size}.png`, import.meta.url), await page.screenshot({ omitBackground: true }));
}
await browser.close();
