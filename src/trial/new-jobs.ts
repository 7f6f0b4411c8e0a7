import { jobList } from '../files/template/job-list.ts';
import { jobWorkbook } from '../files/template/job-workbook.ts';
import type { NewWorkbook } from '../files/xlsx/new-workbook.ts';
import type { HostFunction } from '../sheet/host-function.ts';
import { demoWorkbook } from './demo/demo-workbook.ts';

export type NewJob = 'list' | 'template' | 'example';

export function newJob(kind: NewJob, functions: readonly HostFunction[]): NewWorkbook {
  if (kind === 'example') return { title: 'Example', ...demoWorkbook() };
  if (kind === 'list') return jobList('Job list', []);
  const assumed = functions.find((f) => f.name === 'BURN.ASSUMED');
  return jobWorkbook(functions, assumed?.call([]) ?? []);
}
