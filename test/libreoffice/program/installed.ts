/** A profile with the extension in it, made once a run; each program gets a copy. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { inject } from 'vitest';
import type { TestProject } from 'vitest/node';
import { extension } from '../../../src/libreoffice/package.mjs';
import { Calc, type Options } from './calc.ts';
import { profileWith } from './profile.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    readonly profileFolder: string;
  }
}

export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-calc-'));
  const file = path.join(folder, 'rodsheet.oxt');
  writeFileSync(file, (await extension()).archive);
  project.provide('profileFolder', profileWith(file));
  return () => rmSync(folder, { recursive: true, force: true });
}

export const startCalc = (options: Options = {}): Promise<Calc> => Calc.start(inject('profileFolder'), options);
