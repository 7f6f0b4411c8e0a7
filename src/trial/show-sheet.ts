import { LocaleType, LogLevel, Univer, UniverInstanceType } from '@univerjs/core';
import type { ILanguagePack, Injector } from '@univerjs/core';
import { UniverSheetsCorePreset } from '@univerjs/preset-sheets-core';
import { CalculationMode } from '@univerjs/sheets-formula';
import english from '@univerjs/preset-sheets-core/locales/en-US';
import type { HostFunction } from '../sheet/host-function.ts';
import { attachEngine } from '../engine/attach.ts';
import { functionClass } from '../engine/function-class.ts';
import { workbookData } from '../engine/workbook.ts';
import type { WorkbookDescription } from '../sheet/described-workbook.ts';
import { FUNCTION_GROUP, functionTexts } from './function-texts.ts';
import { HIDDEN_MENUS } from './hidden-menus.ts';
import { mendSelection } from './mend-selection.ts';
import { closeStaleList } from './stale-list.ts';

export const WORKBOOK_ID = 'trial';

/** Shows a workbook that calculates with our functions; gives the engine's register of services. */
export function showSheet(
  container: HTMLElement,
  description: WorkbookDescription,
  functions: readonly HostFunction[],
): Injector {
  container.replaceChildren();
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: ownGroup(english) },
    logLevel: LogLevel.ERROR,
  });
  const { plugins } = UniverSheetsCorePreset({
    container,
    ribbonType: 'simple',
    menu: HIDDEN_MENUS,
    footer: { menus: false, zoomSlider: false },
    // A size such as 3/4 is meant to be a text; a mark in the corner is for errors.
    sheets: { disableForceStringAlert: true, disableForceStringMark: true },
    formula: {
      function: functions.map((host) => [functionClass(host), host.name]),
      description: functionTexts(functions),
      initialFormulaComputing: CalculationMode.FORCED,
    },
  });
  for (const plugin of plugins) {
    if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1]);
    else univer.registerPlugin(plugin);
  }
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, workbookData(WORKBOOK_ID, description));
  const injector = univer.__getInjector();
  attachEngine(injector);
  closeStaleList(injector);
  mendSelection(injector, WORKBOOK_ID);
  return injector;
}

/** The sheet's texts, with the group of our functions named. */
function ownGroup(texts: ILanguagePack): ILanguagePack {
  const own = texts['sheets-formula-ui'] as ILanguagePack;
  return {
    ...texts,
    'sheets-formula-ui': {
      ...own,
      functionType: { ...(own['functionType'] as ILanguagePack), univer: FUNCTION_GROUP },
    },
  };
}
