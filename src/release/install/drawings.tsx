/** Drawings of the install page, for what no screenshot of ours can show. */

interface Step {
  /** What to click or type, as it is written there. */
  readonly label: string;
  /** More about it, below. */
  readonly below?: string;
}

const WIDTH = 760;
const ROW = 58;

/** Steps one below the other, numbered, with a way from each to the next. */
export function StepsDrawing({ title, steps }: { readonly title: string; readonly steps: readonly Step[] }) {
  const height = steps.length * ROW + 12;
  return (
    <svg class="drawing" viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={`${title}: ${spoken(steps)}`}>
      {steps.map(({ label, below = '' }, i) => {
        const y = 10 + i * ROW;
        return (
          <g key={label}>
            {i > 0 && <path class="way" d={`M28 ${y - ROW + 37} V${y + 5}`} />}
            <circle class="disc" cx={28} cy={y + 20} r={14} />
            <text class="number" x={28} y={y + 25}>
              {i + 1}
            </text>
            <rect class={i === steps.length - 1 ? 'pick' : 'box'} x={56} y={y} width={WIDTH - 66} height={44} rx={4} />
            <text x={70} y={below === '' ? y + 27 : y + 19}>
              {label}
            </text>
            {below !== '' && (
              <text class="soft" x={70} y={y + 36}>
                {below}
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}

const spoken = (steps: readonly Step[]): string =>
  steps.map(({ label, below }, i) => `${i + 1}, ${label}${below === undefined ? '' : ` (${below})`}`).join('; ');

const PARTS = [
  ['manifest.xml', 'on your machine or share'],
  ['Excel', 'reads where the rest is'],
  ['the web server', 'functions, pane, pictures'],
] as const;

/** What goes where: the manifest into the host, which fetches the rest from the address in it. */
export function PartsDrawing() {
  const [width, gap] = [210, 50];
  return (
    <svg
      class="drawing"
      viewBox={`0 0 ${WIDTH} 100`}
      role="img"
      aria-label="manifest.xml, on your machine or share, is given to Excel, which reads in it where the rest is and fetches functions, pane and pictures from the web server"
    >
      {PARTS.map(([label, below], i) => {
        const x = 14 + i * (width + gap);
        return (
          <g key={label}>
            <rect class={i === 1 ? 'pick' : 'box'} x={x} y={20} width={width} height={60} rx={4} />
            <text x={x + 14} y={46}>
              {label}
            </text>
            <text class="soft" x={x + 14} y={66}>
              {below}
            </text>
            {i > 0 && (
              <>
                <path class="way" d={`M${x - gap + 4} 50 H${x - 10}`} />
                <path class="head" d={`M${x - 12} 44 L${x - 2} 50 L${x - 12} 56 Z`} />
              </>
            )}
          </g>
        );
      })}
    </svg>
  );
}

const ADDRESSES = [
  ['v/VERSION/', 'never changes: figures stay', 'box'],
  ['latest/', 'becomes the next version', 'pick'],
] as const;

/** The two addresses that can be installed. */
export function AddressesDrawing({ version }: { readonly version: string }) {
  return (
    <svg
      class="drawing"
      viewBox={`0 0 ${WIDTH} 150`}
      role="img"
      aria-label={`v/${version}/ never changes, so figures stay; latest/ becomes the next version with the next release`}
    >
      {ADDRESSES.map(([label, below, look], i) => {
        const y = 14 + i * 70;
        return (
          <g key={label}>
            <rect class={look} x={14} y={y} width={300} height={50} rx={4} />
            <text x={28} y={y + 22}>
              {label.replace('VERSION', version)}
            </text>
            <text class="soft" x={28} y={y + 40}>
              {below}
            </text>
            <path class="way" d={`M318 ${y + 25} H440`} />
            <path class="head" d={`M438 ${y + 19} L448 ${y + 25} L438 ${y + 31} Z`} />
            <text x={458} y={y + 22}>
              {i === 0 ? version : `${version} today`}
            </text>
            <text class="soft" x={458} y={y + 40}>
              {i === 0 ? 'in a year too' : 'a newer one after an update'}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
