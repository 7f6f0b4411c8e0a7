import type { PackageInside } from '../addin/notices.mjs';

export interface Built {
  readonly entries: Readonly<Record<string, number>>;
  readonly packages: readonly PackageInside[];
  readonly copied: readonly { readonly name: string; readonly from: string }[];
  readonly notices: string;
}
export function build(env: Readonly<Record<string, string>>, folder: string): Promise<Built>;
