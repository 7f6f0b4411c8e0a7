/** `npm run release -- --base https://your.address [--out folder]` */
import path from 'node:path';
import { parseArgs } from 'node:util';
import { Refused } from './publish.ts';
import { release } from './release.ts';

const USAGE = `Makes a release: a folder that any static web server can serve, to install from without a build.

  npm run release -- --base https://your.address [--out folder]

  --base   the address the folder will be served from; it is written into the manifests
  --out    the folder (.release); versions that are in it stay, and one that differs is never written over

Give the same folder each time: people with an older version go on being served by it.`;

async function main(): Promise<number> {
  let values: { readonly base?: string; readonly out?: string; readonly help?: boolean };
  try {
    ({ values } = parseArgs({
      options: { base: { type: 'string' }, out: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
    }));
  } catch (thrown) {
    console.error(`${(thrown as Error).message}\n\n${USAGE}`);
    return 2;
  }
  if (values.help) {
    console.log(USAGE);
    return 0;
  }
  if (values.base === undefined) {
    console.error(`No --base given.\n\n${USAGE}`);
    return 2;
  }
  const out = path.resolve(values.out ?? '.release');
  try {
    const { version, same, latest } = await release(values.base, out);
    console.log(
      `${version} ${same ? 'stood there already, the same byte for byte' : 'made'}: ${path.join(out, 'v', version)}`,
    );
    if (latest !== version) console.log(`latest stays ${latest}, which is newer`);
    console.log(`Serve ${out} at ${values.base}; server/ in it says how, index.html tells people how to install it.`);
    return 0;
  } catch (thrown) {
    console.error(thrown instanceof Error ? thrown.message : String(thrown));
    return thrown instanceof Refused ? 1 : 4;
  }
}

process.exitCode = await main();
