import { OXYGEN_RANGE } from '../core/oxygen/oxygen-state.ts';
import { HIGHEST_SETTING } from '../core/oxygen/hose-setting.ts';
import { FOOT, INCH, PSI, SCF } from '../core/units/quantities.ts';
import type { QuantityKind } from './declaration.ts';

/** Kinds of number that several functions take, with their physical limits. */
export const LENGTH: QuantityKind = { kind: 'quantity', quantity: 'length', above: 0, max: 200 * INCH };
export const ROD_LENGTH: QuantityKind = { kind: 'quantity', quantity: 'length', above: 0, max: 40 * FOOT };
export const TIP_PRESSURE: QuantityKind = { kind: 'quantity', quantity: 'pressure', above: 0, max: 300 * PSI };
export const OXYGEN_FLOW: QuantityKind = { kind: 'quantity', quantity: 'flow', above: 0, max: (500 * SCF) / 60 };
/** What a cylinder's gauge can show within the range of the equation of state, 30 MPa absolute. */
export const CYLINDER_PRESSURE: QuantityKind = { kind: 'quantity', quantity: 'pressure', above: 0, max: 4300 * PSI };
export const LEFTOVER_PRESSURE: QuantityKind = { kind: 'quantity', quantity: 'pressure', min: 0, max: 4300 * PSI };
export const GAS_TEMPERATURE: QuantityKind = {
  kind: 'quantity',
  quantity: 'temperature',
  min: OXYGEN_RANGE.coldest,
  max: OXYGEN_RANGE.hottest,
};
export const REGULATOR_SETTING: QuantityKind = {
  kind: 'quantity',
  quantity: 'pressure',
  above: 0,
  max: HIGHEST_SETTING,
};
export const HOSE_LENGTH: QuantityKind = { kind: 'quantity', quantity: 'distance', above: 0, max: 3000 * FOOT };
/** No finer than the assumption `hose bore` may be. */
export const HOSE_BORE: QuantityKind = {
  kind: 'quantity',
  quantity: 'length',
  above: 0,
  min: 0.05 * INCH,
  max: 6 * INCH,
};
export const DEPTH: QuantityKind = { kind: 'quantity', quantity: 'distance', min: 0, max: 1000 * FOOT };
export const OXYGEN_AMOUNT: QuantityKind = { kind: 'quantity', quantity: 'oxygen', min: 0, max: 1e6 * SCF };
