import type { Explained } from '../explained.ts';
import { Picture } from '../parts/picture.tsx';
import type { CellSection } from '../section.ts';
import { DRAWING, supplyDrawing, type Place } from '../supply-drawing.ts';
import { supplyPoints } from '../supply-points.ts';

const { pipe } = DRAWING;
/** How the words of a place stand to its point, so that they stay inside the drawing and apart. */
const ANCHOR = { cylinder: 'start', outlet: 'middle', tip: 'middle', behind: 'middle', work: 'end' } as const;

function Cylinder() {
  return (
    <g class="rs-supply-body">
      <path d={`M14 ${pipe + 34} V${pipe - 6} q0 -12 12 -12 q12 0 12 12 V${pipe + 34} z`} />
      <path d={`M22 ${pipe - 18} v-7 h8 v7`} />
    </g>
  );
}

function Regulator() {
  return (
    <g class="rs-supply-body">
      <path d={`M30 ${pipe - 22} H62 V${pipe} H66`} class="rs-supply-line" />
      <rect x={66} y={pipe - 9} width={20} height={18} rx={2} />
      <circle cx={70} cy={pipe - 15} r={6} />
      <circle cx={84} cy={pipe - 15} r={6} />
      <path d={`M70 ${pipe - 15} l3 -3 M84 ${pipe - 15} l-2 -4`} class="rs-supply-line" />
    </g>
  );
}

const Hose = () => <path class="rs-supply-hose" d={`M86 ${pipe} H96 q8 0 12 9 t12 0 t12 -9 t12 -9 t12 0 t12 9 H186`} />;

function Holder() {
  return (
    <g class="rs-supply-body">
      <rect x={186} y={pipe - 7} width={44} height={14} rx={3} />
      <path d={`M204 ${pipe + 7} l-5 20 h11 l4 -20`} />
      <path d={`M214 ${pipe - 7} v-6 h10`} class="rs-supply-line" />
    </g>
  );
}

function RodAndWork({ wet }: { readonly wet: boolean }) {
  return (
    <g>
      <path class="rs-supply-rod" d={`M230 ${pipe} H300`} />
      {wet && <path class="rs-supply-water" d={`M256 ${pipe - 30} q6 -5 12 0 t12 0 t12 0 t12 0 t12 0 t12 0`} />}
      <path class="rs-supply-work" d={`M302 ${pipe - 24} h30 v48 h-30 v-20 l-8 -4 l8 -4 z`} />
      <path class="rs-supply-spark" d={`M296 ${pipe + 6} l-9 7 M298 ${pipe + 10} l-5 11 M294 ${pipe - 6} l-9 -6`} />
    </g>
  );
}

function Words({ place: { id, name, pressure, x } }: { readonly place: Place }) {
  const above = id === 'outlet' || id === 'behind';
  const at = id === 'cylinder' ? 2 : id === 'work' ? DRAWING.width - 2 : x;
  return (
    <g aria-hidden="true">
      {id !== 'cylinder' && (
        <path class="rs-supply-lead" d={`M${x} ${above ? pipe - 34 : pipe + 32} V${DRAWING.floor}`} />
      )}
      <text class="rs-supply-name" x={at} y={above ? 10 : pipe + 46} text-anchor={ANCHOR[id]}>
        {name}
      </text>
      <text class="rs-supply-pressure" x={at} y={above ? 23 : pipe + 59} text-anchor={ANCHOR[id]}>
        {pressure}
      </text>
    </g>
  );
}

function SupplyLine({ explained }: { readonly explained: Explained }) {
  const points = supplyPoints(explained);
  if (!points) return null;
  const { width, height, places, stairs, floor, title, description, caption } = supplyDrawing(points, explained.system);
  const has = (id: Place['id']): boolean => places.some((p) => p.id === id);
  return (
    <Picture name="rs-supply" width={width} height={height} title={title} description={description} caption={caption}>
      {has('cylinder') && <Cylinder />}
      {has('outlet') && <Regulator />}
      {has('outlet') && <Hose />}
      <Holder />
      <RodAndWork wet={points.work > 0} />
      {places.map((place) => (
        <Words key={place.id} place={place} />
      ))}
      <path class="rs-supply-floor" d={`M80 ${floor} H${width - 2}`} />
      <path class="rs-supply-stairs" d={stairs} />
      {places.map(
        (place) =>
          place.y !== undefined && <circle key={place.id} class="rs-supply-point" cx={place.x} cy={place.y} r={3} />,
      )}
    </Picture>
  );
}

export const SUPPLY_LINE: CellSection = {
  id: 'supply',
  heading: 'Supply line',
  shows: (explained) => supplyPoints(explained) !== undefined,
  Component: SupplyLine,
};
