import type { Explained } from '../explained.ts';
import { Picture } from '../parts/picture.tsx';
import { pinDrawing, type Box } from '../pin-drawing.ts';
import { pinOfCell } from '../pin-points.ts';
import type { CellSection } from '../section.ts';

const Face = ({ box, of }: { readonly box: Box; readonly of: string }) => <rect class={`rs-pin-${of}`} {...box} />;

function PinSection({ explained }: { readonly explained: Explained }) {
  const pin = pinOfCell(explained);
  if (!pin) return null;
  const { width, height, boss, pin: faces, bore, axis, labels, title, description } = pinDrawing(pin, explained.system);
  return (
    <Picture name="rs-pin" width={width} height={height} title={title} description={description} caption={description}>
      <defs>
        <pattern id="rs-pin-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V6" />
        </pattern>
      </defs>
      {boss.map((box) => (
        <Face key={box.y} box={box} of="boss" />
      ))}
      {faces.map((box) => (
        <Face key={box.y} box={box} of="metal" />
      ))}
      {bore.height > 0 && <Face box={bore} of="bore" />}
      <path class="rs-pin-axis" d={`M2 ${axis} H${bore.x + bore.width + 6}`} />
      <g aria-hidden="true">
        {labels.map(({ text, x, y, anchor }) => (
          <text key={text} x={x} y={y} text-anchor={anchor}>
            {text}
          </text>
        ))}
      </g>
    </Picture>
  );
}

export const PIN_SECTION: CellSection = {
  id: 'pin',
  heading: 'Pin and boss',
  shows: (explained) => pinOfCell(explained) !== undefined,
  Component: PinSection,
};
