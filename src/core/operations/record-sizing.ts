import type { Basis } from '../basis.ts';
import { recordMaterial, type Material } from '../burn/materials.ts';
import { recordRodLine } from '../burn/record-rod-line.ts';
import { rodMassPerLength, rodNames } from '../burn/rods.ts';
import type { Kind, Trace } from '../model/trace.ts';
import type { QuantityName } from '../units/quantities.ts';
import type { Consumption } from './consumption.ts';
import type { Operation } from './operation.ts';
import type { FittedRod } from './rod-fit.ts';
import { recordSite, siteOf } from './site.ts';
import type { Sizing } from './size-item.ts';
import { showQuantity } from '../units/show-quantity.ts';

/** Records the choice of rod and material. */
export function recordRod(fitted: FittedRod, name: string, material: Material, basis: Basis, trace: Trace): void {
  const { a } = basis;
  const { rod, reason } = fitted;
  trace.add({
    name: 'rod',
    symbol: 'rod',
    value: name,
    quantity: 'count',
    formula: reason || 'given',
    kind: reason ? 'calculated' : 'input',
    source: '',
  });
  trace.add({
    name: 'outside diameter of the rod',
    symbol: 'd_rod',
    value: rod.outsideDiameter,
    quantity: 'length',
    formula: 'register of rods',
    kind: 'common practice',
    source: rod.source,
  });
  trace.add({
    name: 'length of a rod',
    symbol: 'L_rod',
    value: fitted.length,
    quantity: 'length',
    formula: 'given or picked with the rod',
    kind: 'input',
    source: '',
  });
  trace.add({
    name: 'steel in a length of rod',
    symbol: 'mu',
    value: rodMassPerLength(rod),
    quantity: 'massPerLength',
    formula: 'tube wall and wires x density of steel, register of rods',
    kind: 'common practice',
    source: rod.source,
  });
  a.record(rodNames(rod).stub, 'stub', trace);
  recordRodLine(rod, basis, trace);
  a.record('pierce width', 'widths', trace);
  recordMaterial(material, a, trace);
}

/** Records what follows from flow, heat balance and work: times, oxygen, rods and crew time, each with a formula that a test replays. */
export function recordSizing<G extends string>(
  operation: Operation<G>,
  sizing: Sizing,
  used: Consumption,
  basis: Basis,
  trace: Trace,
): void {
  const { a } = basis;
  const { work } = sizing;
  const step = (
    name: string,
    symbol: string,
    value: number,
    quantity: QuantityName,
    formula: string,
    expression: string,
    kind: Kind = 'calculated',
  ): void => trace.add({ name, symbol, value, quantity, formula, expression, kind, source: 'arithmetic' });
  const pierced = work.pierces > 0;
  const site = recordSite(a, trace);
  const k = `k${site.removal}`;
  if (sizing.method !== undefined) {
    const times = [sizing.method, ...sizing.otherWays.map((w) => w.method ?? '')].map(
      (name, i) =>
        `${name} ${showQuantity(i === 0 ? sizing.timeAtWork : (sizing.otherWays[i - 1]?.time ?? NaN), 'time', a.system, 3)}`,
    );
    trace.add({
      name: 'method',
      symbol: 'method',
      value: sizing.method,
      quantity: 'count',
      formula: times.length > 1 ? `least time at the work: ${times.join(', ')}` : 'given',
      kind: 'calculated',
      source: 'arithmetic',
    });
  }
  if (pierced) {
    const c =
      a.record('advance limit', site.slag === '' ? 'c' : 'c_0', trace) * siteOf(a, (name) => a.value(name)).slag;
    if (site.slag !== '')
      step(
        'advance limit in this position',
        'c',
        c,
        'speed',
        'advance limit x factor of the position',
        `c_0${site.slag}`,
      );
    const depths = a.record('advance depth', 'depths', trace);
    const w = work.pierceWidth;
    const v = used.advance;
    const s = depths * w;
    step(
      'advance that the heat allows',
      'v',
      v,
      'speed',
      'work metal removed x flow / (density x section of the pierce)',
      `${k} * m / (rho * (PI / 4) * w * w)`,
    );
    step(
      'depth at which slag halves the advance',
      's',
      s,
      'length',
      'advance depth x width of the pierce',
      'depths * w',
    );
    step(
      "depth pierced at the heat's advance",
      'x_free',
      Math.min(Math.max((c / v - 1) * s, 0), work.pierceDepth),
      'length',
      '(advance limit / advance of the heat - 1) x halving depth, between 0 and the depth',
      'min(max((c / v - 1) * s, 0), x)',
    );
    step(
      'burning time of the pierces',
      't_pierce',
      used.pierceTime,
      'time',
      "pierces x (free depth / advance + the rest at the slag's limit, which falls with depth)",
      'n * (x_free / v + (x - x_free + (x * x - x_free * x_free) / (2 * s)) / c)',
    );
  }
  step(
    'burning time of the rest',
    't_rest',
    used.freeTime,
    'time',
    'density x volume / (work metal removed x flow)',
    `(rho * V) / (${k} * m)`,
  );
  step('burning time', 't', used.burnTime, 'time', 'pierces + rest', pierced ? 't_pierce + t_rest' : 't_rest');
  step('oxygen while burning', 'O_burn', used.burnOxygen, 'oxygen', 'flow x burning time', 'm * t');
  step(
    'length of rod consumed',
    'l',
    sizing.consumed,
    'length',
    'rod feed ratio x oxygen while burning / steel in a length of rod',
    'lambda * O_burn / mu',
  );
  const stub = a.value(rodNames(sizing.rod.rod).stub);
  const loss = a.record('reach loss', 'loss', trace);
  const lost = stub + (loss * work.reach) / 2;
  const { coupled, length } = sizing.rod;
  const most = a.value('string rods');
  if (!coupled) {
    step(
      'usable length of a rod',
      'usable',
      length - lost,
      'length',
      'length - stub - reach loss x mean depth',
      'L_rod - stub - loss * reach / 2',
    );
    step(
      'rods',
      'N',
      sizing.rods,
      'count',
      'length consumed / usable length, whole, up',
      'max(1, ceil(l / usable - 1e-9))',
    );
  } else if (most === 0) {
    step(
      'rods',
      'N',
      sizing.rods,
      'count',
      '(length consumed + one stub + reach loss x mean depth) / length of a rod, whole, up',
      'max(1, ceil((l + stub + loss * reach / 2) / L_rod - 1e-9))',
    );
  } else {
    a.record('string rods', 'most', trace);
    step(
      'strings',
      'n_string',
      Math.max(1, Math.ceil(sizing.consumed / (most * length - lost) - 1e-9)),
      'count',
      'length consumed / (rods of a string x length - stub - reach loss x mean depth), whole, up',
      'max(1, ceil(l / (most * L_rod - stub - loss * reach / 2) - 1e-9))',
    );
    step(
      'rods',
      'N',
      sizing.rods,
      'count',
      '(length consumed + strings x (stub + reach loss x mean depth)) / length of a rod, whole, up',
      'max(1, ceil((l + n_string * (stub + loss * reach / 2)) / L_rod - 1e-9))',
    );
  }
  a.record('idle oxygen share', 'idle', trace);
  a.record('lighting time', 't_light', trace);
  const started = work.starts !== undefined;
  step(
    'oxygen',
    'O',
    sizing.oxygen,
    'oxygen',
    `oxygen while burning x (1 + idle share) + ${started ? 'rods or starts, the more,' : 'rods'} x flow x lighting time`,
    `O_burn * (1 + idle) + ${started ? 'max(N, starts)' : 'N'} * m * t_light`,
  );
  step(
    'metal removed',
    'M',
    sizing.removed,
    'mass',
    'density x (volume of the rest + pierces)',
    pierced ? 'rho * (V + n * x * (PI / 4) * w * w)' : 'rho * V',
  );
  const symbols = operation.crewTimes.map((each, i) => {
    a.record(each, `t_${i + 1}`, trace);
    return `t_${i + 1}`;
  });
  if (operation.cooling) {
    operation.cooling(sizing.planned, basis, trace);
    symbols.push('t_cool');
  }
  a.record('burning duty', 'duty', trace);
  a.record('rod change time', 't_change', trace);
  const tasks = (work.tasks ?? []).map(({ time, symbol }, i) => {
    a.record(time, `t_task_${i + 1}`, trace);
    return `${symbol} * t_task_${i + 1}`;
  });
  const fixed = symbols.length > 0 ? `${symbols.join(' + ')} + ` : '';
  const handled = site.handling === '' ? '' : ' x factor of position and access';
  step(
    'crew time',
    't_crew',
    sizing.crewTime,
    'time',
    `the times of the item + (burning time / burning duty + ${tasks.length > 0 ? 'tasks x their times + ' : ''}rods x rod change time)${handled}`,
    `${fixed}(${['t / duty', ...tasks, 'N * t_change'].join(' + ')})${site.handling}`,
  );
}
