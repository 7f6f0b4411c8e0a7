/** Profiles of LibreOffice with the extension in them, and the environment that the program is started in. */
import { execFileSync } from 'node:child_process';
import { chmodSync, chownSync, cpSync, lstatSync, mkdirSync, mkdtempSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** `unopkg` refuses to work for root on one user's extensions, so it is somebody else then. */
const NOBODY = 65_534;

/** `unopkg` now and then cannot open the registry that it has just made, and dies of it. */
const TRIES = 3;

/** Makes a profile in a folder, with the extension that lies there as a file. */
export function profileWith(file: string): string {
  for (let tried = 1; ; tried++)
    try {
      return newProfile(file, `profile-${tried}`);
    } catch (problem) {
      if (tried === TRIES) throw problem;
      console.warn(`The extension could not be added, and another profile is tried: ${String(problem)}`);
    }
}

/** A command as root has it run by somebody without rights of his own. */
export const asSomebody = (command: readonly string[]): string[] =>
  process.getuid?.() === 0
    ? ['setpriv', `--reuid=${NOBODY}`, `--regid=${NOBODY}`, '--clear-groups', ...command]
    : [...command];

function newProfile(file: string, name: string): string {
  const folder = path.dirname(file);
  const profile = path.join(folder, name);
  const temporary = path.join(folder, `${name}-tmp`);
  for (const each of [profile, temporary]) mkdirSync(each);
  const asRoot = process.getuid?.() === 0;
  if (asRoot) for (const each of [folder, profile, temporary]) chownSync(each, NOBODY, NOBODY);
  const run = (program: string, ...args: readonly string[]): void => {
    const [first = '', ...rest] = asSomebody([program, ...args, `-env:UserInstallation=file://${profile}`]);
    execFileSync(first, rest, { env: { ...environment(), HOME: profile, TMPDIR: temporary }, stdio: 'pipe' });
  };
  // An extension put into a profile that was never used is forgotten when the program first starts.
  run('soffice', '--headless', '--terminate_after_init');
  run('unopkg', 'add', file);
  return profile;
}

/** With `first` before all other folders of programs; without other Pythons, where the program's own would look for its library. */
export function environment(...first: readonly (string | undefined)[]): NodeJS.ProcessEnv {
  const folders = [...first, '/usr/bin', '/bin', path.dirname(process.execPath)];
  return { ...process.env, PATH: folders.filter((each) => each !== undefined).join(':') };
}

/** A copy of the profile for one program. */
export function copyOfProfile(profile: string): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-profile-'));
  cpSync(profile, folder, { recursive: true });
  return folder;
}

/** Takes from everybody the right to write to a folder and all in it, also from the one who runs the program for the tests. */
export function lock(folder: string): void {
  for (const file of [
    folder,
    ...readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((f) => path.join(folder, f)),
  ])
    chmodSync(file, lstatSync(file).isDirectory() ? 0o555 : 0o444);
}

/** Gives a folder and all in it to whom the program runs as where it is started with no rights of its own. */
export function give(folder: string): void {
  if (process.getuid?.() !== 0) return;
  for (const file of [
    folder,
    ...readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((f) => path.join(folder, f)),
  ])
    chownSync(file, NOBODY, NOBODY);
}
