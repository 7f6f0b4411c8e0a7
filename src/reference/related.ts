import { CATALOGUE, findFunction } from '../catalogue/catalogue.ts';
import type { Declaration } from '../catalogue/declaration.ts';
import { OPERATION_IDS } from '../core/operations/all.ts';

/** What is used next to the functions of a family; names after `BURN.`. */
const BESIDE: Readonly<Record<string, readonly string[]>> = {
  ROD: ['SUPPLY.CHECK', 'ASSUMED'],
  LISTS: ['CAUTIONS', 'LOG.FIT'],
  CYLINDER: ['SUPPLY.CHECK', 'JOB.STOCK', 'HOSE.SETTING'],
  HOSE: ['SUPPLY.CHECK', 'ROD.FLOW', 'CYLINDER.CONTENT'],
  SUPPLY: ['HOSE.SETTING', 'HOSE.LOSS', 'ROD.FLOW', 'ROD.PRESSURE', 'CYLINDER.CONTENT'],
  COOL: ['GRIP.AFTER', 'PIN.TIME', 'JOB.SCHEDULE'],
  GRIP: ['COOL.SHRINK', 'PUSH.RAM', 'PUSH.CHECK'],
  PUSH: ['GRIP.AFTER', 'GRIP.FORCE'],
  GUARD: ['PIN.HOLE', 'PIN.PLAN', 'CAUTIONS'],
  JOB: ['SPREAD', 'PIN.PLAN', 'LOG.FIT', 'CAUTIONS'],
  LOG: ['ASSUMED', 'ASSUME.DIFF', 'ASSUME.EFFECT', 'SPREAD'],
  NOISE: ['JOB.SCHEDULE', 'PPE.LIST'],
  AIR: ['CAUTIONS', 'FIRE.CHECK'],
  FIRE: ['CAUTIONS', 'JOB.SCHEDULE'],
  EYE: ['PPE.LIST'],
  LEAD: ['BATTERY.STRIKES'],
  BATTERY: ['LEAD.DROP', 'JOB.STOCK'],
  CAUTIONS: ['PPE.LIST', 'CONDITIONS', 'JOB.SHEET', 'FIRE.CHECK'],
  PPE: ['CAUTIONS', 'EYE.SHADE', 'NOISE.SHIFT'],
};
const BESIDE_OPERATIONS = ['SPREAD', 'JOB.PLAN', 'JOB.STOCK', 'ROD.PICK', 'ASSUME.EFFECT', 'CAUTIONS'];
const BESIDE_PINS = ['COOL.TIME', 'GRIP.AFTER', 'GUARD.PLATES'];

/** Functions of its family, then those used next to it. */
export function relatedTo(d: Declaration): readonly Declaration[] {
  const operation = (OPERATION_IDS as readonly string[]).includes(d.family);
  const beside = operation
    ? [...(d.family === 'PIN' ? BESIDE_PINS : []), ...BESIDE_OPERATIONS]
    : (BESIDE[d.family] ?? []);
  const names = [
    ...CATALOGUE.filter((other) => other.family === d.family).map((other) => other.name),
    ...beside.map((name) => `BURN.${name}`),
  ];
  return [...new Set(names)]
    .filter((name) => name !== d.name)
    .map((name) => {
      const found = findFunction(name);
      if (!found) throw new Error(`${name}, beside ${d.family}, is no function`);
      return found;
    });
}
