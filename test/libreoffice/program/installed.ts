/** A profile with the extension in it, made once a run; each test takes a copy of it. */
import { execFileSync } from 'node:child_process';
import { chownSync, cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { TestProject } from 'vitest/node';
import { extension } from '../../../src/libreoffice/package.mjs';

declare module 'vitest' {
  export interface ProvidedContext {
    readonly profileFolder: string;
    readonly extensionFile: string;
  }
}

/** `unopkg` refuses to work for root on one user's extensions, so it is somebody else then. */
const NOBODY = 65_534;

export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-calc-'));
  const file = path.join(folder, 'rodsheet.oxt');
  const profile = path.join(folder, 'profile');
  writeFileSync(file, (await extension()).archive);
  mkdirSync(profile);
  const asRoot = process.getuid?.() === 0;
  if (asRoot) for (const each of [folder, profile]) chownSync(each, NOBODY, NOBODY);
  const run = (program: string, ...args: readonly string[]): void => {
    const command = [program, ...args, `-env:UserInstallation=file://${profile}`];
    const [first = '', ...rest] = asRoot
      ? ['setpriv', `--reuid=${NOBODY}`, `--regid=${NOBODY}`, '--clear-groups', ...command]
      : command;
    execFileSync(first, rest, { env: { ...environment(), HOME: profile }, stdio: 'pipe' });
  };
  // An extension put into a profile that was never used is forgotten when the program first starts.
  run('soffice', '--headless', '--terminate_after_init');
  run('unopkg', 'add', file);
  project.provide('profileFolder', profile);
  project.provide('extensionFile', file);
  return () => rmSync(folder, { recursive: true, force: true });
}

/** Without the paths of other Pythons: the program's own looks there for its library. */
export function environment(): NodeJS.ProcessEnv {
  return { ...process.env, PATH: `/usr/bin:/bin:${path.dirname(process.execPath)}` };
}

/** A copy of the profile for one program. */
export function copyOfProfile(profile: string): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-profile-'));
  cpSync(profile, folder, { recursive: true });
  return folder;
}
