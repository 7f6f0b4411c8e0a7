export interface PackageInside {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly homepage: string;
  /** Bytes of its source by the entry it is in. */
  readonly bytes: Readonly<Record<string, number>>;
}
/** Packages of a finished compilation of webpack. */
export function packagesOf(compilation: object): readonly PackageInside[];
/** Packages in what esbuild put together: its reports by the name of what came out. */
export function packagesInside(reports: object, root: string): readonly PackageInside[];
/** Bytes of all modules in an entry of a compilation. */
export function bytesOf(compilation: object, entry: string): number;
/** The licences of packages as one text. */
export function noticesText(packages: readonly PackageInside[]): string;
