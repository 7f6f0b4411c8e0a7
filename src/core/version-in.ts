/** The version of the calculation that a text names, as `2026.11.29` in `Calculation 2026.11.29 8f96b478`; undefined where it names none. */
export const versionIn = (text: string): string | undefined => /\d{4}\.\d{2}\.\d{2}/.exec(text)?.[0];
