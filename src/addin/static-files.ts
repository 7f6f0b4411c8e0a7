/** Files of the add-in that the build writes from the declared functions; run by the build, not shipped. */
import { hostFunctions } from '../sheet/host-functions.ts';
import { metadata } from './metadata.ts';

/** Texts by file name; `base` is the address the add-in is served from, without a slash at the end; `cards` as in `metadata`. */
export function staticFiles(base: string, cards = false): Readonly<Record<string, string>> {
  return { 'functions.json': `${JSON.stringify(metadata(hostFunctions, `${base}/reference`, cards), null, 2)}\n` };
}
