/**
 * `npm run licences`: builds, and lists the packages that are really inside, with version, licence, share and reason; then the
 * packages of development by licence. Fails on a package that shipped.json does not name for the place it is in, on a licence
 * that is not permissive, and on a package without its licence in LICENCES.txt.
 *
 *   --only addin      leaves the trial workbook out, as the build's switch does
 *   --only commands   looks at the command line and the extension for LibreOffice Calc alone
 *   --list FILE       another list in place of shipped.json
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { licenceOf } from '../../src/addin/notices.mjs';
import { builtContents, commandLineContents, extensionContents } from './contents.mjs';

const ROOT = path.resolve(import.meta.dirname, '../..');
const PERMISSIVE = [
  'MIT',
  'MIT-0',
  'ISC',
  '0BSD',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'BlueOak-1.0.0',
  'CC0-1.0',
  'Unlicense',
  'Zlib',
];
const { values } = parseArgs({
  options: {
    only: { type: 'string' },
    list: { type: 'string', default: path.join(import.meta.dirname, 'shipped.json') },
  },
});
const { chosen, brought } = JSON.parse(readFileSync(values.list, 'utf8'));
const faults = [];

const built =
  values.only === 'commands'
    ? []
    : [await builtContents({ office: 'package', ...(values.only ? { only: values.only } : {}) })];
for (const { entries, packages } of [...built, await commandLineContents(), await extensionContents()]) {
  for (const [entry, all] of Object.entries(entries))
    shipped(
      entry,
      all,
      packages.filter(({ bytes }) => entry in bytes),
    );
}
for (const { packages, notices, copied } of built) {
  noticed(packages, notices);
  copies(copied);
}
development();
for (const fault of faults) console.error(`FAULT: ${fault}`);
process.exitCode = faults.length > 0 ? 1 : 0;

/** The table of one entry; shares are of the sources, before they are made small. */
function shipped(entry, all, packages) {
  console.log(`\n${entry}: ${packages.length === 0 ? 'no package of others' : ''}`);
  for (const { name, version, licence, bytes } of packages.toSorted((a, b) => b.bytes[entry] - a.bytes[entry])) {
    const by = Object.keys(brought).find((one) => brought[one].includes(name) && chosen[one]?.in.includes(entry));
    const why = chosen[name]?.in.includes(entry) ? chosen[name].why : by && `brought by ${by}`;
    console.log(
      `  ${`${name} ${version}`.padEnd(48)}${licence.padEnd(14)}${((100 * bytes[entry]) / all).toFixed(1).padStart(5)}%  ${why ?? 'NOT LISTED'}`,
    );
    if (!why) faults.push(`${name} is in ${entry}, and test/supply-chain/shipped.json gives no reason`);
    if (!permissive(licence)) faults.push(`${name} is in ${entry} under ${licence}`);
  }
}

/** `A OR B` asks for one of them, `A AND B` for all. */
function permissive(licence) {
  return licence
    .replace(/[()]/g, '')
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((one) => PERMISSIVE.includes(one)));
}

function noticed(packages, notices) {
  console.log(`\nLICENCES.txt: ${packages.length} packages, ${notices.length} characters`);
  for (const { name, version } of packages)
    if (!notices.includes(`\n${name} ${version} (`)) faults.push(`LICENCES.txt does not name ${name}`);
}

/** Copied as they are: our own files, and with `--env office=package` the host vendor's library with its licence. */
function copies(copied) {
  const foreign = copied.filter(({ from }) => from.includes('node_modules/'));
  console.log(
    `\ncopied: ${copied.length - foreign.length} files of our own; with --env office=package ${foreign.length} of @microsoft/office-js, under its own licence, to be used with the host only`,
  );
  for (const { name, from } of foreign)
    if (!/^(.*\/)?node_modules\/@microsoft\/office-js\//.test(from)) faults.push(`${name} is copied from ${from}`);
  if (!foreign.some(({ name }) => name === 'office/LICENSE.md'))
    faults.push('the licence of @microsoft/office-js is not copied with it');
}

function development() {
  const { packages } = JSON.parse(readFileSync(path.join(ROOT, 'package-lock.json'), 'utf8'));
  const byLicence = new Map();
  for (const [place, { license }] of Object.entries(packages)) {
    if (place === '') continue;
    const licence = license ?? licenceOf(path.join(ROOT, place));
    byLicence.set(licence, [...(byLicence.get(licence) ?? []), place.replace(/^.*node_modules\//, '')]);
  }
  console.log(
    `\ndevelopment: ${Object.keys(packages).length - 1} packages; those named are not plainly permissive, and none of them is shipped`,
  );
  for (const [licence, names] of [...byLicence].sort((a, b) => b[1].length - a[1].length)) {
    console.log(
      `  ${String(names.length).padStart(5)}  ${licence}${permissive(licence) ? '' : `: ${[...new Set(names)].join(', ')}`}`,
    );
  }
}
