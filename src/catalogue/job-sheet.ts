import { counted } from '../core/units/counted.ts';
import { isChoice, type Assumption } from '../core/assumptions/assumption.ts';
import { REGISTRY, type AssumptionName, type NumberName } from '../core/assumptions/registry.ts';
import { showAssumption, showRanged } from '../core/assumptions/show-assumption.ts';
import type { Basis } from '../core/basis.ts';
import { rodNames, type Rod } from '../core/burn/rods.ts';
import { CalcError } from '../core/errors.ts';
import { showClock, showDuration, type Start } from '../core/job/clock.ts';
import { nameOf, type Job } from '../core/job/job-list.ts';
import { crewingOf, jobSchedule, type Schedule } from '../core/job/job-schedule.ts';
import { jobStock } from '../core/job/job-stock.ts';
import { changeAt, joined, scheduleSum, waitsFor, watchUntil } from '../core/messages.ts';
import { itemSetting } from '../core/operations/item-supply.ts';
import type { Sized } from '../core/operations/sized.ts';
import { conditionText, parseConditions, type ConditionName } from '../core/safety/conditions.ts';
import { fireReachInForce } from '../core/safety/fire-reach.ts';
import { freshAirForOxygen } from '../core/safety/fresh-air-for-oxygen.ts';
import { LIMITS } from '../core/safety/limits.ts';
import { noiseHours } from '../core/safety/noise-hours.ts';
import { findNoiseRule } from '../core/safety/noise-rules.ts';
import { oxygenByVolume, oxygenRelease } from '../core/safety/oxygen-release.ts';
import { conditionsOf } from '../core/safety/item.ts';
import { wearFor } from '../core/safety/ppe.ts';
import { rodCover } from '../core/safety/welding-machine.ts';
import { operationOf, OPERATION_IDS } from '../core/operations/all.ts';
import type { QuantityName, UnitSystem } from '../core/units/quantities.ts';
import { showQuantity } from '../core/units/show-quantity.ts';
import { CALCULATION_VERSION } from '../core/version.ts';
import { correlationLines } from './correlation-rows.ts';
import { watchRule } from './fire-functions.ts';
import { forMarks, itemsOf, jobItems, jobKnown } from './job-items.ts';
import { shortCautions } from './plan-cautions.ts';
import { shareOf } from './share.ts';

/** One line of a job sheet. The section stands in its first line only. */
export interface SheetLine {
  readonly section: string;
  readonly what: string;
  readonly figure: string;
  readonly note: string;
}

export interface JobSheetRequest {
  readonly job: Job;
  readonly conditions: readonly string[];
  readonly title: string | undefined;
}

type Line = readonly [what: string, figure: string, note: string];

const DIGITS = 3;
const SIGNED = 'name ____________________';
const WHEN = 'signed ________________  date __________  time ________';

/** What is signed for, and by whom. */
const SIGN_OFF: readonly string[] = [
  'permit issued, with its limits and its end',
  'machine shut down, isolated, blocked; springs and pressure released',
  'reach cleared, covered or guarded; extinguishers in place',
  'air tested: oxygen ______ %   flammable ______ %   other ____________',
  'burner: read the cautions, wears what is listed',
  'second person at the cylinder valve',
  'fire watch posted, from ________ to ________',
  'place checked again after the watch; permit handed back',
];

/**
 * A printable sheet: cautions first, then the list by mark, what to load, the times, what departs from the defaults, fire watch,
 * what to wear, and lines to sign. It permits nothing.
 */
export function jobSheet({ job, conditions, title }: JobSheetRequest, basis: Basis): readonly SheetLine[] {
  const { a } = basis;
  const { system } = a;
  const given = parseConditions(conditions, system);
  const known = jobKnown(job);
  const operations = OPERATION_IDS.filter((id) => job.items.some(({ sized }) => sized.operation.id === id));
  const items = itemsOf(jobItems(operations, known, given, a), a);
  const held = items.flatMap(conditionsOf);
  const has = (...names: readonly ConditionName[]): boolean => held.some((c) => names.includes(c.name));
  const shown = shownIn(system);

  const sheet: SheetLine[] = [];
  const section = (name: string, lines: readonly Line[]): void =>
    lines.forEach(([what, figure, note], i) => void sheet.push({ section: i === 0 ? name : '', what, figure, note }));

  section('Hot work', [
    [
      title ?? 'exothermic rod work',
      `calculation ${CALCULATION_VERSION}`,
      "An estimate to plan with. It permits nothing: local codes, the employer's permit and licensed or qualified people rule.",
    ],
  ]);

  const { named, others } = shortCautions(items);
  const also: readonly Line[] =
    others.length > 0
      ? [
          [
            'and with every such job',
            `${others.length} more`,
            `${others.map((c) => c.key).join(', ')}: BURN.CAUTIONS says what to do`,
          ],
        ]
      : [];
  section('Cautions', [
    ...named.map(({ title, severity, action, clause, marks }): Line => [
      title,
      severity,
      `${marks.length === 0 ? '' : `for ${forMarks(marks)}: `}${action}${clause === '' ? '' : ` (${clause})`}`,
    ]),
    ...also,
  ]);

  const brought = new Set(
    held
      .filter((c) => !given.some((g) => g.name === c.name))
      .map((c) => (c.origin === 'material' ? c.because : conditionText(c, system))),
  );
  const { bad, remarks } = job.list;
  section('Job', [
    ...operations.map((id): Line => [operationOf(id).summary, id, '']),
    ['items', String(job.pieces), bad.length === 0 ? '' : `${bad.length} left out of all figures`],
    ...bad.map(({ problem }): Line => ['left out', '', problem.message]),
    ...remarks.map(({ kind, text }): Line => [kind, '', text]),
    [
      'conditions given',
      '',
      conditions.length === 0 ? 'none: that says nothing of the place. Walk it and list them' : conditions.join(', '),
    ],
    ...(brought.size > 0 ? [['of the list and the assumptions', '', [...brought].join(', ')] as const] : []),
  ]);

  const schedule = jobSchedule(job, crewingOf(basis));
  const start: Start = { time: a.value('shift start'), day: undefined };
  section('List', listLines(job, schedule, start, basis));
  const cover = rodCover({ grounded: has('grounded work'), arc: false, underwater: has('underwater', 'splash zone') });
  const covering = cover.cover === 'insulated' ? `use insulated rods: ${cover.reason}` : `bare rods: ${cover.reason}`;
  section('To load', loadLines(job, covering, basis));
  section('Times', timeLines(schedule, start));

  const { lowOxygen, highOxygen } = job.total;
  const flows = job.items.map(({ sized }) => sized.flow);
  section('Oxygen', [
    [
      'oxygen at the work',
      shown(job.needs.oxygen.plain, 'oxygen'),
      `${shown(lowOxygen, 'oxygen')} to ${shown(highOxygen, 'oxygen')} in eight cases of ten`,
    ],
    ...settingLines(job, basis),
    ['flow through a rod', between(flows, 'flow', system), ''],
    ...(has('confined', 'indoors')
      ? airLines(
          Math.max(...flows),
          job.items.map(({ sized }) => sized.rod.rod),
          basis,
        )
      : []),
  ]);

  const rams = job.items.flatMap(({ sized }) => ramOf(sized));
  const push: readonly Line[] =
    rams.length > 0
      ? [
          [
            'ram to bring',
            shown(Math.max(...rams), 'force'),
            'squared, secured and guarded; nobody in line with the pin; raise the force in steps',
          ],
        ]
      : [];
  const rule = findNoiseRule(a.word('noise rule'));
  const noise = a.value('short rod noise');
  section('Crew', [
    [
      'rod burning',
      shown(
        job.items.reduce((sum, { sized, quantity }) => sum + quantity * sized.burnTime, 0),
        'time',
      ),
      `${rule.name} allows ${shown(noiseHours(noise, rule), 'hours')} a shift of such work without protectors, at ${shown(noise, 'level')} on average (common practice, no source; measure); never one person alone`,
    ],
    ...push,
  ]);

  section('Assumptions', [...departures(basis), ...correlationLines(basis.a)]);

  const watch = watchRule(undefined, basis);
  const height = Math.max(0, ...held.flatMap((c) => (c.name === 'height' && c.value !== undefined ? [c.value] : [])));
  const at = fireReachInForce(height, basis).evaluation;
  const reach = at.number('reach');
  const governs = reach > at.number('r') ? 'drops' : 'radius';
  const unsaid = has('height') && height === 0 ? '; give the height: from a height drops go farther' : '';
  section('Fire', [
    [
      'fire watch after the rod is out',
      `${shown(watch.watch, 'time')} at least`,
      `${watch.name}, ${watch.clause}${watch.monitoring > 0 ? `; up to ${shown(watch.monitoring, 'time')} more of monitoring where the permit asks for it` : ''}. The strictest rule of the place holds`,
    ],
    [
      'clear, cover or guard within',
      shown(reach, 'distance'),
      `${governs === 'drops' ? `drops from ${shown(height, 'distance')}, with bounce` : LIMITS.hotWorkRadius.clause}${unsaid}; farther where wind or openings carry sparks`,
    ],
  ]);

  section(
    'To wear',
    wearFor(items).map(({ item, against, marks }): Line => [
      item,
      '',
      `against ${against}${marks.length === 0 ? '' : `; for ${forMarks(marks)}`}`,
    ]),
  );
  section(
    'Sign-off',
    SIGN_OFF.map((what): Line => [what, SIGNED, WHEN]),
  );
  return sheet;
}

const shownIn =
  (system: UnitSystem) =>
  (value: number, quantity: QuantityName): string =>
    Number.isFinite(value) ? showQuantity(value, quantity, system, DIGITS) : 'beyond reach';

function between(values: readonly number[], quantity: QuantityName, system: UnitSystem): string {
  const shown = shownIn(system);
  const [least, most] = [Math.min(...values), Math.max(...values)].map((x) => shown(x, quantity)) as [string, string];
  return least === most ? most : `${least} to ${most}`;
}

/** A row of the list each: its sizes, rods, pressure, and when its pieces are burnt. */
function listLines(job: Job, { slots }: Schedule, start: Start, { a }: Basis): readonly Line[] {
  const shown = shownIn(a.system);
  return job.items.map((item): Line => {
    const { sized, quantity, conditions, notes } = item;
    const { operation, planned } = sized;
    const sizes = operation.order
      .filter((name) => operation.sizes[name]?.default === undefined || planned[name] !== operation.sizes[name].default)
      .map((name) => `${name} ${shown(planned[name]!, operation.sizes[name]!.quantity)}`);
    const own = slots.flatMap((slot, i) => (slot.stages.item === item ? [{ order: i + 1, slot }] : []));
    const when =
      own.length === 0
        ? 'in no shift: see below'
        : `order ${own.map(({ order }) => order).join(', ')}, burning from ${own
            .map(({ slot }) => `${showClock(start, slot.hotFrom)} of shift ${slot.shift}`)
            .join(', ')}`;
    return [
      `${nameOf(item)}${quantity === 1 ? '' : `, ${quantity} off`}`,
      `${counted(quantity * sized.rods, 'rod')} ${sized.name}`,
      [
        `${operation.id} ${sizes.join(', ')}`,
        sized.material.name,
        `tip ${shown(sized.pressure, 'pressure')}`,
        when,
        ...conditions.map((c) => conditionText(c, a.system)),
        ...notes,
      ].join('; '),
    ];
  });
}

/** What is loaded, as BURN.JOB.STOCK gives it for the confidence in force. */
function loadLines(job: Job, covering: string, { a }: Basis): readonly Line[] {
  const shown = shownIn(a.system);
  const confidence = shareOf(a.value('load confidence'));
  const { lines, doubt } = jobStock(job, confidence);
  return lines.map(({ name, load, plain, quantity }): Line => {
    const hint = name.startsWith('rods ')
      ? name.includes('insulated')
        ? ''
        : covering
      : name === 'cylinders'
        ? `chained upright, capped when moved, ${shown(LIMITS.cylinderDistance.value, 'distance')} from fuel gas and combustibles or behind a barrier`
        : name === 'oxygen'
          ? doubt
          : '';
    const figure = (x: number): string =>
      quantity === 'hours' ? showDuration(x) : quantity === 'count' ? String(x) : shown(x, quantity);
    return [name, figure(load), joined([`by the plans ${figure(plain)}`, hint])];
  });
}

/** Shift by shift: from when to when, breaks, waits, cylinder changes, and the fire watch. */
function timeLines(s: Schedule, start: Start): readonly Line[] {
  const clock = (time: number): string => showClock(start, time);
  const shifts = Array.from({ length: s.shifts }, (_, i) => i + 1).flatMap((shift): readonly Line[] => {
    const burnt = s.slots.filter((slot) => slot.shift === shift);
    const pushed = s.slots.filter((slot) => slot.pushShift === shift);
    const last = s.lastHot[shift - 1];
    const end = Math.max(0, ...pushed.map((slot) => slot.done), last === undefined ? 0 : last + s.watch);
    const changes = burnt.flatMap(({ changes: times, cylinders }) =>
      times.map((time, k) => changeAt(cylinders - times.length + k + 1, clock(time))),
    );
    const pauses = s.pauses
      .filter((p) => p.shift === shift)
      .map(({ crew, from, to, waitsFor: stages }) => {
        const who = s.crews === 1 ? '' : ` (crew ${crew})`;
        return `${clock(from)} to ${clock(to)}${who} ${stages ? waitsFor(stages.name) : 'break'}`;
      });
    return [
      [
        `shift ${shift}`,
        `${clock(0)} to ${clock(end)}`,
        [...(last === undefined ? [] : [watchUntil(clock(last + s.watch), s.watchRule)]), ...changes, ...pauses].join(
          '; ',
        ),
      ],
    ];
  });
  return [
    ...shifts,
    ...s.left.map(({ stages, reason }): Line => [stages.name, '', reason]),
    ['in all', counted(s.shifts, 'shift'), scheduleSum(...sums(s))],
  ];
}

const sums = ({ work, standby, breaks }: Schedule): [string, string, string] => [
  showDuration(work),
  showDuration(standby),
  showDuration(breaks),
];

function settingLines({ items }: Job, { a }: Basis): readonly Line[] {
  const tips = items.map(({ sized }) => sized.pressure);
  const settings = items.flatMap(({ sized, basis }) => {
    try {
      return [itemSetting(sized, basis).gauge];
    } catch (e) {
      if (e instanceof CalcError) return [];
      throw e;
    }
  });
  const flowing = 'gauge, while oxygen flows';
  return [
    ['tip pressure', between(tips, 'pressure', a.system), flowing],
    ...(settings.length > 0 ? [['regulator setting', between(settings, 'pressure', a.system), flowing] as const] : []),
  ];
}

/** The ram that a piece asks for, where it is pushed and a common ram has the rating. */
function ramOf(sized: Sized): readonly number[] {
  try {
    const ram = sized.ram();
    return ram === undefined ? [] : [ram];
  } catch (e) {
    if (e instanceof CalcError) return [];
    throw e;
  }
}

/** Unburnt oxygen of the thirstiest rod, and the air that keeps the room's average at the limit. */
function airLines(flow: number, rods: readonly Rod[], basis: Basis): readonly Line[] {
  const { a } = basis;
  // As BURN.AIR.RELEASE takes it: the least that may burn.
  const burnt = Math.min(...rods.map((rod) => a.inForce(rodNames(rod).burnt).low));
  const release = oxygenRelease(flow, burnt, a.value('leak flow'));
  const air = freshAirForOxygen(
    oxygenByVolume(release, a.value('room temperature'), a.value('air pressure')),
    a.value('air mixing factor'),
    a.value('fresh air oxygen'),
  );
  const shown = (value: number, quantity: QuantityName): string => showQuantity(value, quantity, a.system, DIGITS);
  return [
    ['oxygen let into the air unburnt', shown(release, 'flow'), 'with leaks, while a rod burns'],
    [
      'fresh air for that oxygen alone',
      shown(air, 'airflow'),
      `holds the average of the room at ${shown(LIMITS.oxygenHigh.value, 'percent')} with a mixing factor of ${shown(a.value('air mixing factor'), 'ratio')}; near the work there is more: measure. For people 29 CFR 1910.252(c)(2) asks for ${shown(LIMITS.freshAirForEach.value, 'airflow')} each`,
    ],
  ];
}

/** What the call sets otherwise than the register does. */
function departures({ a }: Basis): readonly Line[] {
  const names = new Set<string>(a.departures());
  const lines = (REGISTRY as readonly Assumption[])
    .filter((e) => names.has(e.name))
    .map((entry): Line => {
      const name = entry.name as AssumptionName;
      const standard = isChoice(entry)
        ? `default ${entry.value}`
        : `${a.inForce(name as NumberName).kind}; default ${showRanged(entry)}`;
      return [name, showAssumption(name, a), `${standard}; ${a.reasonOf(name)}`];
    });
  return lines.length > 0
    ? lines
    : [
        [
          'all as by default',
          '',
          'BURN.ASSUMED lists them, each with its range; most are common practice without a source',
        ],
      ];
}
