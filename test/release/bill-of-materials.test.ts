import { readFileSync } from 'node:fs';
import { Spec, Validation } from '@cyclonedx/cyclonedx-library';
import { describe, expect, it } from 'vitest';
import { billOfMaterials, type LockedPackages, type ShippedPackage } from '../../src/release/bill-of-materials.ts';

const lock = JSON.parse(readFileSync(new URL('../../package-lock.json', import.meta.url), 'utf8')) as {
  readonly packages: LockedPackages;
};
const of = (name: string, more: Partial<ShippedPackage> = {}): ShippedPackage => ({
  name,
  version: lock.packages[`node_modules/${name}`]?.version ?? '',
  licence: 'MIT',
  homepage: 'https://example.test/',
  in: ['functions'],
  ...more,
});
const SHIPPED = [of('preact', { in: ['functions', 'trial/trial'] }), of('saxes', { licence: 'ISC' }), of('xmlchars')];

interface Bill {
  readonly components: readonly Readonly<Record<string, unknown>>[];
  readonly dependencies: readonly { readonly ref: string; readonly dependsOn?: readonly string[] }[];
}
const bill = (packages: readonly ShippedPackage[]): Bill =>
  JSON.parse(billOfMaterials('0.1.0-2031.01.01', packages, lock.packages)) as Bill;

/** Against the published schema, bom-1.6.schema.json (ECMA-424), in its strict form. */
const faults = (text: string): Promise<unknown> =>
  new Validation.JsonStrictValidator(Spec.Version.v1dot6).validate(text);

describe('the bill of materials', () => {
  it('is as the published schema of CycloneDX 1.6 has it', async () => {
    expect(await faults(billOfMaterials('0.1.0-2031.01.01', SHIPPED, lock.packages))).toBeNull();
  });

  it('would not pass with a field of our own making, nor with a digest cut short', async () => {
    const text = billOfMaterials('0.1.0-2031.01.01', SHIPPED, lock.packages);
    expect(await faults(text.replace('"specVersion"', '"ours": 1, "specVersion"'))).not.toBeNull();
    expect(await faults(text.replace(/("content": "[0-9a-f]{100})[0-9a-f]+/, '$1'))).not.toBeNull();
  });

  it('names each package with version, address, licence, parts and the checksum of the lock file', () => {
    const { version, integrity = '' } = lock.packages['node_modules/saxes'] ?? {};
    expect(bill(SHIPPED).components.find((c) => c['name'] === 'saxes')).toMatchObject({
      version,
      purl: `pkg:npm/saxes@${version}`,
      licenses: [{ license: { id: 'ISC' } }],
      hashes: [{ alg: 'SHA-512', content: Buffer.from(integrity.slice(7), 'base64').toString('hex') }],
      properties: [{ name: 'rodsheet:in', value: 'functions' }],
    });
  });

  it('says which package brings which', () => {
    const { dependencies } = bill(SHIPPED);
    const saxes = `saxes@${lock.packages['node_modules/saxes']?.version}`;
    expect(dependencies.find((d) => d.ref === saxes)?.dependsOn).toEqual([
      `xmlchars@${lock.packages['node_modules/xmlchars']?.version}`,
    ]);
    const root = dependencies.find((d) => d.ref.startsWith('rodsheet@'));
    expect(root?.dependsOn).toContain(saxes);
    expect(root?.dependsOn).not.toContain(`xmlchars@${lock.packages['node_modules/xmlchars']?.version}`);
  });

  it('takes a licence that is an expression as one, and one without an id by its name', async () => {
    const text = billOfMaterials(
      '0.1.0-2031.01.01',
      [of('preact', { licence: '(MIT OR Apache-2.0)' }), of('saxes', { licence: 'as the author says' })],
      lock.packages,
    );
    expect(await faults(text)).toBeNull();
    expect(text).toContain('"expression": "(MIT OR Apache-2.0)"');
    expect(text).toContain('"name": "as the author says"');
  });

  it('is the same text for the same packages, and refuses one that the lock file does not hold', () => {
    expect(billOfMaterials('1', SHIPPED, lock.packages)).toBe(billOfMaterials('1', SHIPPED, lock.packages));
    expect(() => bill([of('preact', { version: '0.0.1' })])).toThrow(
      'preact@0.0.1 is shipped, and not in the lock file',
    );
  });
});
