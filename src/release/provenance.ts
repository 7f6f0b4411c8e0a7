import { dirHash, sha256, sortedNames, type Files } from './digests.ts';

/** What a release was made from, and with. */
export interface Made {
  readonly version: string;
  readonly base: string;
  /** Address of the folder. */
  readonly place: string;
  readonly sources: Files;
  readonly lock: Buffer;
  /** Version of Node, without the `v`. */
  readonly node: string;
}

/**
 * A statement of which sources a folder was made from: in-toto Statement v1.1 with SLSA Provenance v1 as its predicate. It is
 * not signed, so it proves nothing by itself; who makes the release again from the same sources gets the same digests.
 * There is no time in it, and no commit, so that the same sources give the same bytes.
 */
export function provenance(files: Files, { version, base, place, sources, lock, node }: Made): string {
  const statement = {
    _type: 'https://in-toto.io/Statement/v1',
    subject: sortedNames(files).map((name) => ({ name, digest: { sha256: sha256(files.get(name)!) } })),
    predicateType: 'https://slsa.dev/provenance/v1',
    predicate: {
      buildDefinition: {
        buildType: `${place}/index.html#how-it-was-made`,
        externalParameters: { command: 'npm run release', base, version },
        resolvedDependencies: [
          {
            name: 'sources',
            digest: { dirHash: dirHash(sources) },
            annotations: {
              files: sources.size,
              folders: [...new Set([...sources.keys()].map((name) => name.split('/')[0]))].sort(),
            },
          },
          { name: 'package-lock.json', digest: { sha256: sha256(lock) } },
          { name: 'node', uri: `pkg:generic/node@${node}` },
        ],
      },
      // Whoever serves the address made it, on a machine of their own.
      runDetails: { builder: { id: `${base}/` } },
    },
  };
  return `${JSON.stringify(statement, null, 2)}\n`;
}
