import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { openPage } from './page.ts';
import { decode, smallPng } from './small-png.ts';

/** The picture as a browser reads it. */
const IN_BROWSER = `async (base64) => {
  const bitmap = await createImageBitmap(await (await fetch('data:image/png;base64,' + base64)).blob());
  const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
  canvas.drawImage(bitmap, 0, 0);
  const { data } = canvas.getImageData(0, 0, bitmap.width, bitmap.height);
  return { width: bitmap.width, height: bitmap.height, pixels: [...data].filter((_, i) => i % 4 !== 3) };
}`;

it('a screenshot made small is the same picture to a browser where it has few colours', async () => {
  const open = await openPage({
    '': '<!doctype html><link rel="icon" href="data:,"><body style="background:linear-gradient(90deg,#000,#00f 60px,#f80 61px)">',
  });
  await open.page.setViewportSize({ width: 97, height: 31 });
  const png = await open.page.screenshot();
  const read = await open.page.evaluate<{ width: number; height: number; pixels: number[] }>(
    `(${IN_BROWSER})('${png.toString('base64')}')`,
  );
  const small = await open.page.evaluate<typeof read>(`(${IN_BROWSER})('${smallPng(png).toString('base64')}')`);
  await open.close();
  expect({ ...decode(png), pixels: [...decode(png).pixels] }).toEqual(read);
  expect(small).toEqual(read);
});

it('the pictures of the README are under 200 kB', () => {
  for (const [, name] of readFileSync(new URL('../../README.md', import.meta.url), 'utf8').matchAll(
    /!\[[^\]]*\]\((assets\/[^)]+)\)/g,
  )) {
    expect(readFileSync(new URL(`../../${name}`, import.meta.url)).length, name).toBeLessThan(200_000);
  }
});
