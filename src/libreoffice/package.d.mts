/** The extension as one file, and the sources it comes from. */
export function extension(): Promise<{ readonly archive: Buffer; readonly inputs: readonly string[] }>;
