/**
 * `npm run validate`: the manifest against the vendor's published schemas, which are not ours to ship. They are looked for
 * beside the project, or where MANIFEST_XSD says. Where they are missing nothing is checked, and that is a failure in
 * continuous integration.
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '../..');
const schemas = process.env.MANIFEST_XSD ?? path.join(ROOT, '../shared/manifest-xsd');
const schema = path.join(schemas, 'OfficeAppManifestV1_1.xsd');
const manifest = process.argv[2] ?? path.join(ROOT, 'manifest.xml');

function unchecked(reason) {
  console.error(`The manifest was not checked: ${reason}.`);
  process.exitCode = process.env.CI ? 1 : 0;
}

if (!existsSync(schema)) unchecked(`there is no ${schema}; MANIFEST_XSD may name another folder`);
else {
  const { error, status } = spawnSync('xmllint', ['--noout', '--nonet', '--schema', schema, manifest], {
    stdio: 'inherit',
  });
  if (error) unchecked(`xmllint does not run (Debian: apt-get install libxml2-utils): ${error.message}`);
  else process.exitCode = status;
}
