/** Files of the registers, and the places in them. */
export const INDEX_FILE = 'index.html';
export const ASSUMPTIONS_FILE = 'assumptions.html';
/** The function BURN.SOURCES has sources.html. */
export const SOURCES_FILE = 'references.html';
export const JOB_FILE = 'worked-job.html';

const anchor = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

export const assumptionAnchor = (name: string): string => `assumption-${anchor(name)}`;
export const sourceAnchor = (key: string): string => `source-${anchor(key)}`;
