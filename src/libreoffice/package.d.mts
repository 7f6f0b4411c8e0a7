/** The extension as one file, and the sources it comes from. */
export function extension(): Promise<{ readonly archive: Buffer; readonly inputs: readonly string[] }>;
/** Its files by path, and what the bundler reports of each bundle in it. */
export function extensionParts(): Promise<{
  readonly files: Readonly<Record<string, string | Uint8Array>>;
  readonly inputs: readonly string[];
  readonly reports: Readonly<Record<string, object>>;
}>;
