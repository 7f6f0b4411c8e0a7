import { expect, it } from 'vitest';
import { openPage } from './page.ts';

const ASKS = {
  'http://script.example/': 'fetch("http://script.example/").catch(() => 0)',
  'http://localhost:1/': 'fetch("http://localhost:1/").catch(() => 0)',
  'http://picture.example/': 'new Image().src = "http://picture.example/"',
  'http://font.example/': 'new FontFace("f", "url(http://font.example/)").load().catch(() => 0)',
  'http://frame.example/':
    'document.body.append(Object.assign(document.createElement("iframe"), { src: "http://frame.example/" }))',
  'ws://socket.example/': 'new WebSocket("ws://socket.example/")',
  'http://worker.example/': 'new Worker("worker.js")',
};

it('a page that asks for something outside is found out, in whatever way it asks', async () => {
  const open = await openPage({
    '': '<!doctype html><link rel="icon" href="data:,"><body><script src="ask.js"></script>',
    'ask.js': Object.values(ASKS).join(';\n'),
    'worker.js': 'fetch("http://worker.example/").catch(() => 0)',
  });
  await expect.poll(() => [...open.outside].sort(), { timeout: 60_000 }).toEqual(Object.keys(ASKS).sort());
  await expect(open.close()).rejects.toThrow('the page asked for');
});

it('a page that asks for nothing outside passes', async () => {
  const open = await openPage({ '': '<!doctype html><link rel="icon" href="data:,">' });
  await open.close();
  expect(open.outside).toEqual([]);
});
