import { cautionsFor } from '../core/exposure/cautions.ts';
import { ppeFor } from '../core/exposure/ppe.ts';
import { findSource } from '../core/sources/register.ts';
import type { Operation } from '../core/exposure/operations.ts';
import { optional, required, tableFunction, type Declaration } from './declaration.ts';
import { conditionTexts, operationsIn } from './condition-cells.ts';

const operation = required({ kind: 'text' }, 'PIN, HOLE, GOUGE, CUT, STUD or BREACH; several with commas between', '"PIN"');
const conditions = optional({ kind: 'cells' }, 'Cells that say how the job is, such as confined, height 30 ft, galvanised; BURN.CONDITIONS lists the words', 'A2:A9');

/** What an operation says of the place by itself. */
export const impliedConditions = (operations: readonly Operation[]): readonly string[] => (operations.includes('BREACH') ? ['concrete'] : []);

export const CAUTION_FUNCTIONS: readonly Declaration[] = [
  tableFunction({
    name: 'BURN.CAUTIONS',
    family: 'CAUTIONS',
    summary: 'Cautions for an operation under the conditions given, most severe first, with what to do. What is known here, not all there is; local codes, the permit and qualified people rule.',
    parameters: { operation, conditions },
    assume: true,
    result: { kind: 'table', columns: ['severity', 'caution', 'what to do', 'because', 'clause', 'source', 'edition'].map((heading) => ({ heading })) },
    sources: ['osha 1910.252', 'osha 1910.253', 'osha 1910.146', 'osha 1910.147', 'osha 1910.1000', 'common practice'],
    cautions: [],
    examples: ['=BURN.CAUTIONS("PIN")', '=BURN.CAUTIONS("CUT",{"confined";"height 30 ft";"galvanised"})'],
    calculate: ({ operation: word, conditions: cells }, { a }) =>
      cautionsFor(operationsIn(word), conditionTexts(cells), {}, a.system).map(({ severity, title, action, because, clause, source }) => {
        const from = findSource(source);
        return [severity, title, action, because, clause, from?.citation ?? source, from?.edition ?? ''];
      }),
  }),
  tableFunction({
    name: 'BURN.PPE.LIST',
    family: 'PPE',
    summary: 'What to wear for an operation under the conditions given, and against what. The least; the employer\'s own assessment decides.',
    parameters: { operation, conditions },
    assume: true,
    result: { kind: 'table', columns: ['wear', 'against', 'because', 'clause', 'source'].map((heading) => ({ heading })) },
    sources: ['osha 1910.133', 'osha 1910.252', 'osha 1910.95', 'osha 1910.134', 'ansi z49.1'],
    cautions: [],
    examples: ['=BURN.PPE.LIST("PIN")', '=BURN.PPE.LIST("BREACH",{"height 20 ft";"confined"})'],
    calculate: ({ operation: word, conditions: cells }, { a }) => {
      const operations = operationsIn(word);
      const plain = new Set(ppeFor([]));
      return ppeFor([...conditionTexts(cells), ...impliedConditions(operations)], a.system).map((p) => [
        p.item, p.against, plain.has(p) ? 'every burn' : 'the conditions', p.clause, findSource(p.source)?.citation ?? p.source,
      ]);
    },
  }),
];
