import { backgroundOf } from '../catalogue/background.ts';
import type { Declaration, Parameter } from '../catalogue/declaration.ts';
import { fromSi } from '../core/units/parse-quantity.ts';

/**
 * Formulas that have no result, each for one reason that its error says: those of its background, the last needed argument
 * missing, the first number outside its limits, a wrong word or name, a wrong assumption.
 */
export function failingFormulas(d: Declaration): readonly string[] {
  const parameters = Object.values(d.parameters);
  const needed = parameters.filter((p) => !p.optional).length;
  const formula = (args: readonly string[]): string => `=${d.name}(${args.join(',')})`;
  // Arguments that work up to and with the one at `i`; those that may be left out are.
  const withText = (i: number, text: string): string =>
    formula(
      parameters.slice(0, Math.max(needed, i + 1)).map((p, k) => (k === i ? text : p.optional ? '' : argumentOf(p))),
    );
  const firstNumber = parameters.findIndex((p) => p.kind.kind === 'quantity');
  const wrong = parameters.flatMap((p, i) => {
    const text = p.kind.kind === 'quantity' && i !== firstNumber ? undefined : wrongText(p);
    return text === undefined ? [] : [withText(i, text)];
  });
  return [
    ...(backgroundOf(d.name).fails ?? []),
    ...(needed > 0 ? [formula(parameters.slice(0, needed - 1).map(argumentOf))] : []),
    ...wrong,
    ...(d.assume === true
      ? [formula([...parameters.map((p) => (p.optional ? '' : argumentOf(p))), '{"no such name",1}'])]
      : []),
  ];
}

/** An argument that works; a small range where cells are asked for. */
const argumentOf = ({ kind, example }: Parameter): string =>
  kind.kind === 'cells' && !/^["\d]/.test(example) ? '{4,10}' : example;

function wrongText({ kind }: Parameter): string | undefined {
  switch (kind.kind) {
    case 'quantity': {
      const { quantity, above, min, max, whole } = kind;
      const plain = (si: number): number => Number(fromSi(si, quantity, 'US').toPrecision(6));
      if (whole) return '1.5';
      if (above !== undefined) return String(above === 0 ? -1 : plain(above));
      if (min !== undefined) return String(plain(min) - 1);
      return max === undefined ? '"wide"' : String(plain(max) + 1);
    }
    case 'choice':
      return '"other"';
    case 'rod':
      return '"5/8"';
    case 'material':
      return '"carbon stel"';
    case 'cylinder':
      return '"big"';
    default:
      return undefined;
  }
}
