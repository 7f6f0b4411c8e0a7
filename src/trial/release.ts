import { CALCULATION_VERSION } from '../core/version.ts';

/** Name of the release that the page belongs to; empty in a build that is none. */
declare const RELEASE: string;

/** From the page to the script that keeps the release in the browser; it is in charge of the release's folder alone. */
const WORKER = '../offline.js';

/** Says which version the page is. A release is kept in the browser, and the line says when it works without a network. */
export function showRelease(place: HTMLElement): void {
  if (RELEASE === '') {
    place.textContent = `Calculation ${CALCULATION_VERSION}`;
    return;
  }
  const say = (more: string): void => {
    place.textContent = `Version ${RELEASE}${more}`;
  };
  say('');
  // Only on https and on this machine itself do browsers offer it.
  if (!('serviceWorker' in navigator)) return;
  void keep(say).catch(() => say(', needs a network'));
}

async function keep(say: (more: string) => void): Promise<void> {
  const { serviceWorker } = navigator;
  const registration = await serviceWorker.register(WORKER);
  const newer = (): void => {
    if (registration.waiting) say('; a newer version comes when all its pages were closed');
  };
  registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', newer));
  const failed = new Promise<never>((_, reject) => {
    registration.installing?.addEventListener('statechange', ({ target }) => {
      if ((target as ServiceWorker).state === 'redundant') reject(new Error('a file differs from its checksum'));
    });
  });
  await Promise.race([serviceWorker.ready, failed]);
  say(', works without a network');
  newer();
}
