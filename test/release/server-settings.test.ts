import { describe, expect, it } from 'vitest';
import { ANEW, FOREVER, serverSettings } from '../../src/release/server-settings.ts';

describe('the settings for web servers', () => {
  const settings = Object.entries(serverSettings('https://rods.example/burn'));

  it.each(settings)(
    '%s sends what the host asks for, and lets versions be kept and the rest be asked for anew',
    (_, text) => {
      expect(text).toMatch(/Access-Control-Allow-Origin:? "?\*/);
      expect(text).toMatch(/Cross-Origin-Resource-Policy:? "?cross-origin/);
      expect(text).toContain(FOREVER);
      expect(text).toContain(ANEW);
      expect(text).not.toContain('X-Frame-Options');
    },
  );

  it('are for the address that the release is made for', () => {
    const { 'nginx.conf': nginx, Caddyfile: caddy, _headers: headers } = serverSettings('https://rods.example/burn');
    for (const text of [nginx, caddy]) expect(text).toContain('rods.example');
    for (const text of [nginx, caddy, headers]) expect(text).toContain('/burn');
    expect(serverSettings('https://rods.example')['nginx.conf']).toContain('location / {');
  });
});
