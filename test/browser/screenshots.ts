/** Numbered screenshots of a test, with a page that shows them all; some go into README through SCREENSHOTS=assets. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { smallPng } from './small-png.ts';

export class Screenshots {
  private readonly taken: { readonly file: string; readonly name: string }[] = [];

  /** Empties the folder. */
  constructor(private readonly folder: string) {
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true });
  }

  /** Takes one; where `published` is given and SCREENSHOTS names a folder, a small copy goes there under that name. */
  async take(page: Page, name: string, published?: string): Promise<void> {
    const file = `${String(this.taken.length + 1).padStart(2, '0')}-${name.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.png`;
    const png = await page.screenshot({
      path: path.join(this.folder, file),
      animations: 'disabled',
      caret: 'hide',
      scale: 'css',
    });
    this.taken.push({ file, name });
    const assets = process.env['SCREENSHOTS'];
    if (assets !== undefined && published !== undefined)
      writeFileSync(path.join(assets, `${published}.png`), smallPng(png));
  }

  /** Writes the page with all that were taken. */
  contactSheet(title: string): void {
    const figures = this.taken.map(
      ({ file, name }) =>
        `<figure><a href="${file}"><img src="${file}" alt="" loading="lazy"></a><figcaption>${name}</figcaption></figure>`,
    );
    writeFileSync(
      path.join(this.folder, 'index.html'),
      `<!doctype html><meta charset="utf-8"><title>${title}</title>
<style>body{font:14px system-ui;display:grid;grid-template-columns:repeat(auto-fill,minmax(420px,1fr));gap:16px}figure{margin:0}img{width:100%;border:1px solid #bbb}</style>
${figures.join('\n')}\n`,
    );
  }
}
