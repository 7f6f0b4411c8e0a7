export function compareBuilds(
  one: ReadonlyMap<string, Buffer>,
  other: ReadonlyMap<string, Buffer>,
  folders: readonly string[],
): {
  readonly names: readonly string[];
  readonly differ: readonly string[];
  readonly placed: readonly string[];
  readonly hash: string;
};
