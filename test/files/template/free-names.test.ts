import { describe, expect, it } from 'vitest';
import { withFreeNames } from '../../../src/files/template/free-names.ts';
import { jobWorkbook } from '../../../src/files/template/job-workbook.ts';
import { hostFunctions } from '../../../src/sheet/host-functions.ts';

const NONE = { sheets: [], names: [] };

describe('names for sheets that are put into a workbook', () => {
  const workbook = {
    title: 'x',
    definedNames: { Assume: 'Plan!$A$1', Other: "'Job list'!$B$2" },
    sheets: [
      { name: 'Plan', rows: [['=SUM(\'Job list\'!A1:B2,Plan!C3,Assume)&"Plan!A1"', 'see the sheet Job list.']] },
      { name: 'Job list', cells: { A1: '=other+OTHER1+Elsewhere!A1', B1: { text: '=Plan!A1' } } },
    ],
  };

  it('are those wanted where nothing is taken', () => {
    expect(withFreeNames(workbook, NONE)).toEqual(workbook);
  });

  it('get a number where one is taken, whatever its case, in every formula that uses it', () => {
    const free = withFreeNames(workbook, { sheets: ['PLAN', 'plan 2', 'job LIST'], names: ['assume', 'OTHER'] });
    expect(free.definedNames).toEqual({ Assume_2: "'Plan 3'!$A$1", Other_2: "'Job list 2'!$B$2" });
    expect(free.sheets).toEqual([
      {
        name: 'Plan 3',
        rows: [["=SUM('Job list 2'!A1:B2,'Plan 3'!C3,Assume_2)&\"Plan!A1\"", 'see the sheet Job list 2.']],
      },
      { name: 'Job list 2', cells: { A1: '=Other_2+OTHER1+Elsewhere!A1', B1: { text: '=Plan!A1' } } },
    ]);
  });

  it('leave no formula of the template that reads a sheet which was there before', () => {
    const template = jobWorkbook(hostFunctions, [['name', 'value']]);
    const taken = { sheets: template.sheets.map(({ name }) => name), names: ['Assume'] };
    const free = withFreeNames(template, taken);
    const formulas = free.sheets.flatMap(({ rows = [], cells = {} }) =>
      [...rows.flat(), ...Object.values(cells)].filter((c): c is string => typeof c === 'string' && c.startsWith('=')),
    );
    expect(formulas.length).toBeGreaterThan(1000);
    const before = new RegExp(`(^|[^A-Za-z0-9_'])(${taken.sheets.join('|')})!|\\bAssume\\b`);
    expect(formulas.filter((text) => before.test(text))).toEqual([]);
  });
});
