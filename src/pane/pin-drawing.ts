import type { PinInBoss } from '../core/heat/cool-pin.ts';
import type { UnitSystem } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PinDrawing {
  readonly width: number;
  readonly height: number;
  /** Cut faces of boss and pin, above and below the axis, and the open bore; all to one scale. */
  readonly boss: readonly Box[];
  readonly pin: readonly Box[];
  readonly bore: Box;
  readonly axis: number;
  /** Pixels a metre. */
  readonly scale: number;
  readonly labels: readonly {
    readonly text: string;
    readonly x: number;
    readonly y: number;
    readonly anchor: 'start' | 'middle' | 'end';
  }[];
  readonly title: string;
  readonly description: string;
}

/** Room for the drawing and round it. */
const FRAME = { width: 340, most: 190, top: 8, left: 10, labels: 104 } as const;

/** A pin in its boss cut along the axis, to scale: where the faces lie, with the same in words. Pure. */
export function pinDrawing({ diameter, hole, boss, length }: PinInBoss, system: UnitSystem): PinDrawing {
  const scale = Math.min((FRAME.width - FRAME.left - FRAME.labels) / length, FRAME.most / boss);
  const [D, d, Do, L] = [diameter * scale, hole * scale, boss * scale, length * scale];
  const axis = FRAME.top + Do / 2;
  const ring = (outer: number, inner: number): readonly Box[] => [
    { x: FRAME.left, y: axis - outer / 2, width: L, height: (outer - inner) / 2 },
    { x: FRAME.left, y: axis + inner / 2, width: L, height: (outer - inner) / 2 },
  ];
  const size = (x: number): string => showQuantity(x, 'length', system, 4);
  const wall = (diameter - hole) / 2;
  const at = FRAME.left + L + 8;
  const texts = [
    `boss ${size(boss)}`,
    `pin ${size(diameter)}`,
    hole > 0 ? `bore ${size(hole)}` : 'solid',
    `wall ${size(wall)}`,
  ].slice(0, hole > 0 ? 4 : 3);
  const first = Math.max(FRAME.top + 12, axis - (texts.length * 15) / 2 + 12);
  const height = Math.max(FRAME.top + Do, first + 15 * (texts.length - 1) + 4) + 22;
  return {
    width: FRAME.width,
    height,
    boss: ring(Do, D),
    pin: hole > 0 ? ring(D, d) : [{ x: FRAME.left, y: axis - D / 2, width: L, height: D }],
    bore: { x: FRAME.left, y: axis - d / 2, width: L, height: d },
    axis,
    scale,
    labels: [
      ...texts.map((text, i) => ({ text, x: at, y: first + 15 * i, anchor: 'start' as const })),
      { text: size(length), x: Math.max(FRAME.left + L / 2, 24), y: FRAME.top + Do + 18, anchor: 'middle' as const },
    ],
    title: 'Pin, bore and boss to scale, cut along the axis',
    description: `Pin ${size(diameter)} by ${size(length)}, ${hole > 0 ? `bored ${size(hole)}, wall ${size(wall)}` : 'solid'}, in a boss of ${size(boss)} outside.`,
  };
}
