import type { VNode } from 'preact';

/** One page of the reference, written to a file of its own. */
export interface Page {
  /** Name of the file, within the folder of the reference. */
  readonly file: string;
  readonly title: string;
  /** One sentence under the title. */
  readonly lead: string;
  readonly body: VNode;
}
