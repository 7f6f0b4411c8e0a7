import { fromSi, plainUnit } from '../core/units/parse-quantity.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { showWithUnit } from './show-cell.ts';
import type { SupplyPoints } from './supply-points.ts';

/** A place of the line where a pressure is known. */
export interface Place {
  readonly id: 'cylinder' | 'outlet' | 'tip' | 'behind' | 'work';
  readonly name: string;
  readonly pressure: string;
  /** Across the drawing. */
  readonly x: number;
  /** Height of its step in the staircase; undefined for the cylinder, whose pressure is of another size. */
  readonly y: number | undefined;
}

export interface SupplyDrawing {
  readonly width: number;
  readonly height: number;
  readonly places: readonly Place[];
  /** The pressures from the regulator to the work as a path that falls from place to place. */
  readonly stairs: string;
  /** Where pressure 0 lies. */
  readonly floor: number;
  /** The same for those who do not see it. */
  readonly title: string;
  readonly description: string;
  /** What each part takes. */
  readonly caption: string;
}

export const DRAWING = { width: 340, height: 200, pipe: 58, top: 132, floor: 186 } as const;

const X = { cylinder: 26, outlet: 92, tip: 190, behind: 244, work: 312 } as const;
const NAMES = {
  cylinder: 'cylinder',
  outlet: 'regulator outlet',
  tip: 'tip',
  behind: 'behind holder',
  work: 'work',
} as const;
const ORDER = ['cylinder', 'outlet', 'tip', 'behind', 'work'] as const;

/** A pressure to read off a drawing: three significant digits, whole from 100 on. */
function shown(si: number, system: UnitSystem): string {
  const x = fromSi(si, 'pressure', system);
  return showWithUnit(Math.abs(x) >= 100 ? Math.round(x) : Number(x.toPrecision(3)), plainUnit('pressure', system));
}

/** Where everything stands in the drawing of a supply line, with its words. Pure: the component only turns it into elements. */
export function supplyDrawing(points: SupplyPoints, system: UnitSystem): SupplyDrawing {
  const known = ORDER.filter((id) => points[id] !== undefined);
  const line = known.filter((id) => id !== 'cylinder');
  const top = Math.max(...line.map((id) => points[id] ?? 0), 1);
  const height = (p: number): number => DRAWING.floor - (Math.max(0, p) / top) * (DRAWING.floor - DRAWING.top);
  const places = known.map((id): Place => ({
    id,
    name: NAMES[id],
    pressure: shown(points[id] ?? 0, system),
    x: X[id],
    y: id === 'cylinder' ? undefined : height(points[id] ?? 0),
  }));
  const stairs = places
    .filter((p) => p.y !== undefined)
    .map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x} ${(p.y ?? 0).toFixed(1)}`)
    .join(' ');
  const flow =
    points.flow === undefined
      ? ''
      : `${showWithUnit(Number(fromSi(points.flow, 'flow', system).toPrecision(3)), plainUnit('flow', system))} of oxygen`;
  const takes = (what: string, from: number | undefined, to: number | undefined): string =>
    from === undefined || to === undefined ? '' : `${what} ${shown(from - to, system)}`;
  const caption = [
    flow,
    takes('the hose takes', points.outlet, points.tip),
    takes('the holder takes', points.tip, points.behind),
    points.behind === undefined
      ? takes('holder and rod take', points.tip, points.work)
      : takes('the rod takes', points.behind, points.work),
    points.work > 0 ? `the water over the work ${shown(points.work, system)}` : '',
  ]
    .filter((text) => text !== '')
    .join('; ');
  return {
    width: DRAWING.width,
    height: DRAWING.height,
    places,
    stairs,
    floor: DRAWING.floor,
    title: 'Supply line with gauge pressures',
    description: `${places.map((p) => `${p.name} ${p.pressure}`).join(', ')}. ${caption}.`,
    caption: `${caption}.`,
  };
}
