import { FOOT, INCH, PSI, SCF } from '../core/units/quantities.ts';
import type { QuantityKind } from './declaration.ts';

/** Kinds of number that several functions take, with their physical limits. */
export const LENGTH: QuantityKind = { kind: 'quantity', quantity: 'length', above: 0, max: 200 * INCH };
export const ROD_LENGTH: QuantityKind = { kind: 'quantity', quantity: 'length', above: 0, max: 40 * FOOT };
export const TIP_PRESSURE: QuantityKind = { kind: 'quantity', quantity: 'pressure', above: 0, max: 300 * PSI };
export const OXYGEN_FLOW: QuantityKind = { kind: 'quantity', quantity: 'flow', above: 0, max: (500 * SCF) / 60 };
