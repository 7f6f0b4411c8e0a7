/** What moves the cursor, ends a line or turns the direction of writing: control characters and their like. */
const ACTING = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/**
 * A text on one line of a terminal. A line break shows as ⏎, other acting characters by their number, so that no cell
 * can look like a line of the command's own.
 */
export function printable(text: string): string {
  return text.replace(/\r\n|[\n\r\u2028\u2029\u0085]/g, '\u23ce').replace(ACTING, byNumber);
}

/** The JSON of a value with such characters by their number too, which says the same to a program. */
export const printableJson = (value: unknown): string => JSON.stringify(value).replace(ACTING, byNumber);

const byNumber = (c: string): string => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
