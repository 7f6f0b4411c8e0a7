/** What the pane fetches once somebody begins a job in the workbook or sets formats there: too long to be there for everybody. */
import { CATALOGUE } from '../catalogue/catalogue.ts';
import { jobList } from '../files/template/job-list.ts';
import { jobWorkbook } from '../files/template/job-workbook.ts';
import type { NewWorkbook } from '../files/xlsx/new-workbook.ts';
import { listedAssumptions } from '../pane/assume-formula.ts';
import type { JobKind } from '../pane/port.ts';

export { addWorkbook } from './add-workbook.ts';
export { formatTable } from './format-table.ts';

export const jobOfKind = (kind: JobKind): NewWorkbook =>
  kind === 'list' ? jobList('Job list', []) : jobWorkbook(CATALOGUE, listedAssumptions());
