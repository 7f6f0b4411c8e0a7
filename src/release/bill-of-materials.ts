import { Enums, Models, Serialize, Spec } from '@cyclonedx/cyclonedx-library';
import { licenceIds } from './licence-ids.ts';
import { sha256 } from './digests.ts';

/** A package of others that is in the release, and in which of its parts. */
export interface ShippedPackage {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly homepage: string;
  readonly in: readonly string[];
}

interface Locked {
  readonly version?: string;
  readonly integrity?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly peerDependencies?: Readonly<Record<string, string>>;
}
export type LockedPackages = Readonly<Record<string, Locked>>;

/** The host's script library is not in the release: the pane asks its vendor's address for it. */
export const OFFICE_ADDRESS = 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js';

/** What is in a release, read from the modules that were really put together: CycloneDX 1.6. Checksums are those of the lock file. */
export function billOfMaterials(version: string, packages: readonly ShippedPackage[], locked: LockedPackages): string {
  const root = new Models.Component(Enums.ComponentType.Application, 'rodsheet', {
    bomRef: `rodsheet@${version}`,
    version,
    description: 'Spreadsheet functions that size oxygen, rods and time for exothermic-rod work',
    licenses: new Models.LicenseRepository([new Models.SpdxLicense('MIT')]),
  });
  const components = new Map(packages.map((one) => [`${one.name}@${one.version}`, componentOf(one, locked)]));
  for (const [key, component] of components) {
    const needs = Object.values(placesOf(key, locked)).flatMap((place) => neededBy(place, locked));
    for (const need of needs) {
      const other = components.get(need);
      if (other) component.dependencies.add(other.bomRef);
    }
  }
  const wanted = locked[''] as { readonly devDependencies?: Readonly<Record<string, string>> } | undefined;
  for (const [name, wants] of Object.entries(wanted?.devDependencies ?? {})) {
    const direct = components.get(`${name}@${wants}`);
    if (direct) root.dependencies.add(direct.bomRef);
  }
  const office = new Models.Service('office.js', {
    bomRef: 'office.js',
    description: `Script library of the spreadsheet host, loaded by the add-in's page from ${OFFICE_ADDRESS}; not part of the release`,
  });
  const bom = new Models.Bom({
    serialNumber: serialNumber(`${version} ${[...components.keys()].join(' ')}`),
    metadata: new Models.Metadata({
      component: root,
      lifecycles: new Models.LifecycleRepository([Enums.LifecyclePhase.Build]),
    }),
    components: new Models.ComponentRepository(components.values()),
    services: new Models.ServiceRepository([office]),
  });
  const serializer = new Serialize.JsonSerializer(new Serialize.JSON.Normalize.Factory(Spec.Spec1dot6));
  return `${serializer.serialize(bom, { sortLists: true, space: 2 })}\n`;
}

function componentOf(one: ShippedPackage, locked: LockedPackages): Models.Component {
  const key = `${one.name}@${one.version}`;
  const [, group, name = one.name] = /^(@[^/]+)\/(.*)$/.exec(one.name) ?? [];
  const [place] = placesOf(key, locked);
  const { integrity } = locked[place ?? ''] ?? {};
  if (place === undefined || integrity === undefined) throw new Error(`${key} is shipped, and not in the lock file`);
  return new Models.Component(Enums.ComponentType.Library, name, {
    ...(group === undefined ? {} : { group }),
    bomRef: key,
    version: one.version,
    purl: `pkg:npm/${one.name.replace('@', '%40')}@${one.version}`,
    licenses: new Models.LicenseRepository(licenceIds(one.licence)),
    hashes: new Models.HashDictionary([
      [Enums.HashAlgorithm['SHA-512'], Buffer.from(integrity.replace(/^sha512-/, ''), 'base64').toString('hex')],
    ]),
    externalReferences: new Models.ExternalReferenceRepository(
      URL.canParse(one.homepage)
        ? [new Models.ExternalReference(one.homepage, Enums.ExternalReferenceType.Website)]
        : [],
    ),
    properties: new Models.PropertyRepository(one.in.map((part) => new Models.Property('rodsheet:in', part))),
  });
}

/** Where a package of a name and version lies. */
const placesOf = (key: string, locked: LockedPackages): readonly string[] =>
  Object.entries(locked).flatMap(([place, { version }]) =>
    place !== '' && `${place.replace(/^.*node_modules\//, '')}@${version}` === key ? [place] : [],
  );

/** What the package at a place asks for, as name and version, found from there upwards as Node does. */
function neededBy(place: string, locked: LockedPackages): readonly string[] {
  const { dependencies, peerDependencies } = locked[place] ?? {};
  return Object.keys({ ...dependencies, ...peerDependencies }).flatMap((name) => {
    for (let folder = place; ; folder = folder.replace(/\/?node_modules\/(@[^/]+\/)?[^/]+$/, '')) {
      const found = locked[`${folder === '' ? '' : `${folder}/`}node_modules/${name}`];
      if (found) return [`${name}@${found.version}`];
      if (folder === '') return [];
    }
  });
}

/** A number of the form of RFC 4122 made of what is listed, so that the same list has the same. */
function serialNumber(text: string): string {
  const hex = sha256(text);
  const variant = ((parseInt(hex.slice(16, 17), 16) & 3) | 8).toString(16);
  return `urn:uuid:${hex.slice(0, 8)}-${hex.slice(8, 12)}-5${hex.slice(13, 16)}-${variant}${hex.slice(17, 20)}-${hex.slice(20, 32)}`;
}
