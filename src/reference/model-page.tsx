/** The model and its limits, with plots drawn by the functions themselves. */
import { cellPage } from './model/cell-page.tsx';
import { heatPage } from './model/heat-page.tsx';
import { limitsPage } from './model/limits-page.tsx';
import { surePage } from './model/sure-page.tsx';
import type { Page } from './page.ts';

export function modelPages(): Promise<readonly Page[]> {
  return Promise.resolve([cellPage(), heatPage(), surePage(), limitsPage()]);
}
