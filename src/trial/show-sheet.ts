import { LocaleService, LocaleType, LogLevel, ThemeService, Univer, UniverInstanceType } from '@univerjs/core';
import type { ILanguagePack, Injector, IWorkbookData } from '@univerjs/core';
import { UniverSheetsCorePreset } from '@univerjs/preset-sheets-core';
import { CalculationMode } from '@univerjs/sheets-formula';
import english from '@univerjs/preset-sheets-core/locales/en-US';
import type { HostFunction } from '../sheet/host-function.ts';
import { attachEngine } from '../engine/attach.ts';
import { functionClass } from '../engine/function-class.ts';
import { FUNCTION_GROUP, functionTexts } from './function-texts.ts';
import { HIDDEN_MENUS } from './hidden-menus.ts';
import { mendSelection } from './mend-selection.ts';
import { closeStaleList } from './stale-list.ts';

export interface ShownWorkbook {
  /** The engine's register of services. */
  readonly injector: Injector;
  readonly close: () => void;
}

/** Shows a workbook that calculates with our functions. */
export function showSheet(
  container: HTMLElement,
  data: IWorkbookData,
  functions: readonly HostFunction[],
): ShownWorkbook {
  container.replaceChildren();
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const locales = { [LocaleType.EN_US]: ownGroup(english) };
  const univer = new Univer({ locale: LocaleType.EN_US, locales, logLevel: LogLevel.ERROR, darkMode: dark.matches });
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
  univer.createUnit(UniverInstanceType.UNIVER_SHEET, data);
  const injector = univer.__getInjector();
  attachEngine(injector);
  const darken = (): void => injector.get(ThemeService).setDarkMode(dark.matches);
  dark.addEventListener('change', darken);
  const dropList = closeStaleList(injector);
  mendSelection(injector, data.id);
  return {
    injector,
    close: () => {
      dark.removeEventListener('change', darken);
      dropList();
      const texts = injector.get(LocaleService);
      univer.dispose();
      // What was about to be drawn asks for its texts once more, and would fail without.
      texts.load(locales);
    },
  };
}

/** The sheet's texts, with the group of our functions named. */
function ownGroup(texts: ILanguagePack): ILanguagePack {
  const own = texts['sheets-formula-ui'] as ILanguagePack;
  return {
    ...texts,
    // The sheet shows the names of these, where its own texts leave them out.
    'sheets-formula': {
      ...(texts['sheets-formula'] as ILanguagePack),
      progress: {
        analyzing: 'Looking',
        calculating: 'Calculating',
        'array-analysis': 'Calculating',
        'array-calculation': 'Calculating',
        done: 'Done',
      },
    },
    'sheets-formula-ui': {
      ...own,
      functionType: { ...(own['functionType'] as ILanguagePack), univer: FUNCTION_GROUP },
    },
  };
}
