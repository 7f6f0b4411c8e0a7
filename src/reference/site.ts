/** The reference as files: pages by name, all figures calculated on the spot. The style sheet and the script lie beside them. */
import { calculatedEntries } from './entries.ts';
import { ASSUMPTIONS_FILE, INDEX_FILE, JOB_FILE, SOURCES_FILE } from './files.ts';
import { functionPage } from './function-page.tsx';
import { indexPage } from './index-page.tsx';
import { modelPages } from './model-page.tsx';
import { assumptionsPage, sourcesPage } from './register-pages.tsx';
import { documentOf, type Way } from './shell.tsx';
import { workedJob } from './worked-job.tsx';

export const SCRIPT_FILE = 'filter.js';

export async function referencePages(): Promise<Readonly<Record<string, string>>> {
  const [entries, job, models] = await Promise.all([calculatedEntries(), workedJob(), modelPages()]);
  const pages = [
    indexPage(entries, models),
    job,
    ...models,
    assumptionsPage(),
    sourcesPage(),
    ...entries.map(functionPage),
  ];
  const ways: readonly Way[] = [
    { file: INDEX_FILE, label: 'Functions' },
    { file: JOB_FILE, label: 'Worked job' },
    ...models.map((m) => ({ file: m.file, label: m.title })),
    { file: ASSUMPTIONS_FILE, label: 'Assumptions' },
    { file: SOURCES_FILE, label: 'Sources' },
  ];
  const files: Record<string, string> = {};
  for (const page of pages) {
    if (page.file in files) throw new Error(`two pages are called ${page.file}`);
    files[page.file] = documentOf(page, ways, page.file === INDEX_FILE ? SCRIPT_FILE : undefined);
  }
  return files;
}
