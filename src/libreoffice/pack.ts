/** What package.mjs runs of ours: the files written from the declarations, and the archive that holds them. */
export { newArchive } from '../files/xlsx/zip.ts';
export { extensionFiles } from './extension-files.ts';
