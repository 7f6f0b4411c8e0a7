/** Numbered screenshots of a test, with a page that shows them all; some go into README through SCREENSHOTS=assets. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { smallPng } from './small-png.ts';

interface Taken {
  readonly file: string;
  readonly name: string;
}
interface Part {
  readonly title: string;
  readonly taken: readonly Taken[];
}

const LIST = '.list.json';

export class Screenshots {
  private readonly taken: Taken[] = [];

  /** Empties its part of the folder; several tests can each have a part in one, by another name. */
  constructor(
    private readonly folder: string,
    private readonly part = '',
  ) {
    mkdirSync(folder, { recursive: true });
    for (const { file } of this.lists()[this.listName()]?.taken ?? []) rmSync(path.join(folder, file), { force: true });
    rmSync(path.join(folder, this.listName()), { force: true });
  }

  /** Takes one; where `published` is given and SCREENSHOTS names a folder, a small copy goes there under that name. */
  async take(page: Page, name: string, published?: string): Promise<void> {
    const number = String(this.taken.length + 1).padStart(2, '0');
    const file = `${this.part}${number}-${name.toLowerCase().replace(/[^a-z0-9]+/g, '-')}.png`;
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

  /** Writes the page with all that were taken, and those of the other parts. */
  contactSheet(title: string): void {
    writeFileSync(path.join(this.folder, this.listName()), JSON.stringify({ title, taken: this.taken }));
    const parts = Object.values(this.lists());
    writeFileSync(
      path.join(this.folder, 'index.html'),
      `<!doctype html><meta charset="utf-8"><title>${parts.map((part) => part.title).join(', ')}</title>
<style>body{font:14px system-ui;display:grid;grid-template-columns:repeat(auto-fill,minmax(420px,1fr));gap:16px}h2{grid-column:1/-1;margin:0}figure{margin:0}img{width:100%;border:1px solid #bbb}</style>
${parts.map(figures).join('\n')}\n`,
    );
  }

  private listName(): string {
    return `${this.part}${LIST}`;
  }

  private lists(): Readonly<Record<string, Part>> {
    const names = existsSync(this.folder) ? readdirSync(this.folder).filter((name) => name.endsWith(LIST)) : [];
    return Object.fromEntries(
      names.sort().map((name) => [name, JSON.parse(readFileSync(path.join(this.folder, name), 'utf8')) as Part]),
    );
  }
}

const figures = ({ title, taken }: Part): string =>
  [
    `<h2>${title}</h2>`,
    ...taken.map(
      ({ file, name }) =>
        `<figure><a href="${file}"><img src="${file}" alt="" loading="lazy"></a><figcaption>${name}</figcaption></figure>`,
    ),
  ].join('\n');
