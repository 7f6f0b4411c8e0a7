import { assumed } from '../assumptions/assumed.ts';
import type { Assumptions } from '../assumptions/assumptions.ts';
import { calculated, decidedBy, type Step } from '../model/step.ts';
import type { Operation, PressureRule } from './operation.ts';
import { POSITION, underWater } from './site.ts';

const pressure = (expression: string, words: string, symbol = 'p', name = 'tip pressure'): Step =>
  calculated(symbol, name, 'pressure', expression, words, { kind: 'common practice', source: 'common practice' });

/** Tip pressure for a pierce, gauge: p = min(p_top, p_0 + rise x depth). Source: common practice, 70 to 150 psi rising with depth. */
export function piercePressure(depth: string, thickness: string, before: readonly Step[] = []): PressureRule {
  return {
    thickness,
    steps: [
      ...before,
      assumed('p_0', 'pierce pressure'),
      assumed('rise', 'pierce pressure rise'),
      assumed('p_top', 'pierce pressure top'),
      pressure(`min(max(p_top, p_0), p_0 + rise * ${depth})`, 'pierce pressure + rise x depth, at most the top'),
    ],
  };
}

/**
 * Tip pressure for widening a pilot, after the steps of its pierce: p_widen = min(p_top, p_0 + rise x depth). Source: common
 * practice, 70 to 90 psi, as for severing: slag leaves by a bore that is open.
 */
export function widenPressure(depth: string, thickness: string): PressureRule {
  return {
    thickness,
    steps: [
      assumed('p_widen_0', 'widen pressure'),
      assumed('rise_widen', 'widen pressure rise'),
      assumed('p_widen_top', 'widen pressure top'),
      pressure(
        `min(max(p_widen_top, p_widen_0), p_widen_0 + rise_widen * ${depth})`,
        'widen pressure + rise x depth, at most the top',
        'p_widen',
        'tip pressure while widening',
      ),
    ],
  };
}

/** Tip pressure for severing: p = min(p_top, p_0 + rise x thickness). Source: common practice, 70 to 90 psi. */
export function severPressure(thickness: string): PressureRule {
  return {
    thickness,
    steps: [
      assumed('p_0', 'sever pressure'),
      assumed('rise', 'sever pressure rise'),
      assumed('p_top', 'sever pressure top'),
      pressure(`min(max(p_top, p_0), p_0 + rise * ${thickness})`, 'sever pressure + rise x thickness, at most the top'),
    ],
  };
}

/** Tip pressure for a groove, from the lowest to the highest with its section `A`. Source: common practice, 40 to 90 psi with the metal to remove. */
export function gougePressure(thickness: string, section: Step): PressureRule {
  return {
    thickness,
    steps: [
      section,
      assumed('p_0', 'gouge pressure'),
      assumed('p_top', 'gouge pressure top'),
      assumed('A_full', 'gouge full section'),
      pressure(
        'p_0 + max(p_top - p_0, 0) * min(1, A / A_full)',
        'gouge pressure, rising to the top with the section up to the full section',
      ),
    ],
  };
}

/** One tip pressure for all breaches. Source: common practice, no source. */
export function breachPressure(thickness: string): PressureRule {
  return { thickness, steps: [assumed('p_0', 'breach pressure'), pressure('p_0', 'breach pressure')] };
}

/** Tip pressures of an operation, gauge: step `p`, and `p_widen` where it widens what it pierced. Sources as `tipPressureSteps`. */
export function pressureSteps({ pressure: first, widening }: Operation, a: Assumptions): readonly Step[] {
  return [...tipPressureSteps(first, a), ...(widening ? wideningSteps(widening, a) : [])];
}

/**
 * Where one pressure is set for all, or the navy's rule holds, widening has that of the pierce.
 */
function wideningSteps({ steps }: PressureRule, a: Assumptions): readonly Step[] {
  const own = a.value('tip pressure') === 0 && !underWater(a);
  const same = calculated('p_widen', 'tip pressure while widening', 'pressure', 'p', 'the tip pressure');
  return (own ? steps : [same]).map((step) =>
    step.symbol === 'p_widen' ? decidedBy(step, 'tip pressure', ...POSITION) : step,
  );
}

/**
 * Tip pressure, gauge: step `p`. The assumption `tip pressure` sets it for all; under water it is counted from the pressure of the
 * water at the work and is 90 psi, or 110 psi over 3 in of metal; else the operation's own rule.
 *
 * Source: US Navy S0300-BB-MAN-010 under water; common practice for the rules of operations.
 */
export function tipPressureSteps(rule: PressureRule, a: Assumptions): readonly Step[] {
  if (a.value('tip pressure') > 0) return [assumed('p', 'tip pressure')];
  const steps = underWater(a) ? underWaterSteps(rule) : rule.steps;
  return steps.map((step) => (step.symbol === 'p' ? decidedBy(step, 'tip pressure', ...POSITION) : step));
}

function underWaterSteps(rule: PressureRule): readonly Step[] {
  return [
    assumed('x_thick', 'underwater thick metal'),
    assumed('p_thin', 'underwater pressure'),
    assumed('p_thick', 'underwater thick pressure'),
    calculated(
      'p',
      'tip pressure',
      'pressure',
      `if(${rule.thickness} > x_thick, p_thick, p_thin)`,
      'underwater pressure, or that over thick metal, counted from the pressure of the water at the work',
      { source: 'navy underwater cutting' },
    ),
  ];
}
