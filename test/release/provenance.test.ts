import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { dirHash } from '../../src/release/digests.ts';
import { readFolder } from '../../src/release/folder.ts';
import { provenance } from '../../src/release/provenance.ts';

const files = (texts: Readonly<Record<string, string>>): Map<string, Buffer> =>
  new Map(Object.entries(texts).map(([name, text]) => [name, Buffer.from(text)]));
const made = {
  version: '0.1.0-2031.01.01',
  base: 'https://rods.example',
  place: 'https://rods.example/v/0.1.0-2031.01.01',
  sources: files({ 'src/one.ts': 'one', 'package.json': '{}' }),
  lock: Buffer.from('lock'),
  node: '20.17.0',
};
const statement = JSON.parse(provenance(files({ 'b.js': 'b', 'a/b.js': '' }), made)) as {
  readonly subject: readonly { readonly name: string; readonly digest: Readonly<Record<string, string>> }[];
  readonly predicate: { readonly buildDefinition: { readonly resolvedDependencies: readonly object[] } };
};

/** No schema of these is published as a file; so field by field, with the place in the specification. */
describe('the statement of provenance', () => {
  it('is a statement of in-toto v1 (Statement v1.1, Fields: _type, subject, predicateType)', () => {
    expect(statement).toMatchObject({
      _type: 'https://in-toto.io/Statement/v1',
      predicateType: 'https://slsa.dev/provenance/v1',
    });
    expect(Object.keys(statement)).toEqual(['_type', 'subject', 'predicateType', 'predicate']);
  });

  it('has a digest in each subject and no name twice (Statement v1.1, subject; DigestSet v1.1, sha256 in lowercase hex)', () => {
    expect(statement.subject).toEqual([
      // SHA-256 of nothing and of "b": FIPS 180-4, by sha256sum.
      { name: 'a/b.js', digest: { sha256: 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855' } },
      { name: 'b.js', digest: { sha256: '3e23e8160039594a33894f6564e1b1348bbd7a0088d42c4acb73eeaed59c009d' } },
    ]);
  });

  it('has what SLSA Provenance v1 requires: buildType, externalParameters, builder.id', () => {
    expect(statement.predicate).toMatchObject({
      buildDefinition: {
        buildType: 'https://rods.example/v/0.1.0-2031.01.01/index.html#how-it-was-made',
        externalParameters: { base: 'https://rods.example', version: '0.1.0-2031.01.01' },
      },
      runDetails: { builder: { id: 'https://rods.example/' } },
    });
  });

  it('names sources, lock file and Node, each by a digest or an address (ResourceDescriptor v1: one of uri, digest, content)', () => {
    const { resolvedDependencies } = statement.predicate.buildDefinition;
    expect(resolvedDependencies.map((each) => 'digest' in each || 'uri' in each)).toEqual([true, true, true]);
    expect(resolvedDependencies).toMatchObject([
      {
        name: 'sources',
        digest: { dirHash: dirHash(made.sources) },
        annotations: { files: 2, folders: ['package.json', 'src'] },
      },
      { name: 'package-lock.json', digest: { sha256: expect.stringMatching(/^[0-9a-f]{64}$/) as unknown } },
      { name: 'node', uri: 'pkg:generic/node@20.17.0' },
    ]);
  });

  it('digests a folder as the command of the specification does (DigestSet v1.1, dirHash)', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'rodsheet-digest-'));
    try {
      mkdirSync(path.join(folder, 'in/deep'), { recursive: true });
      for (const [name, text] of Object.entries({
        'b.txt': 'b',
        'B.txt': 'B',
        'in/a.txt': 'é',
        'in/deep/z': '',
        'in-a': 'x',
      }))
        writeFileSync(path.join(folder, name), text);
      const command = "find . -type f | cut -c3- | LC_ALL=C sort | xargs -r sha256sum | sha256sum | cut -f1 -d' '";
      const expected = execFileSync('bash', ['-c', command], { cwd: folder, encoding: 'utf8' }).trim();
      expect(dirHash(readFolder(folder))).toBe(expected);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
