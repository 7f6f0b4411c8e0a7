import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const SCRIPT = new URL('validate.mjs', import.meta.url).pathname;

function validate(
  env: Readonly<Record<string, string | undefined>>,
  ...args: readonly string[]
): { readonly status: number | null; readonly said: string } {
  const { status, stderr } = spawnSync(process.execPath, [SCRIPT, ...args], {
    env: { ...process.env, CI: undefined, ...env },
    encoding: 'utf8',
  });
  return { status, said: stderr };
}

describe('the check of the manifest', () => {
  it('says that nothing was checked where the schemas are missing, and fails then in continuous integration', () => {
    const nowhere = { MANIFEST_XSD: path.join(tmpdir(), 'no-such-folder') };
    expect(validate(nowhere)).toEqual({
      status: 0,
      said: expect.stringContaining('The manifest was not checked') as string,
    });
    expect(validate({ ...nowhere, CI: 'true' }).status).toBe(1);
  });

  it('fails in continuous integration where the program that checks is missing', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-'));
    writeFileSync(path.join(folder, 'OfficeAppManifestV1_1.xsd'), '<schema/>');
    const env = { MANIFEST_XSD: folder, PATH: folder };
    expect(validate(env)).toEqual({ status: 0, said: expect.stringContaining('xmllint does not run') as string });
    expect(validate({ ...env, CI: 'true' }).status).toBe(1);
    rmSync(folder, { recursive: true });
  });
});
