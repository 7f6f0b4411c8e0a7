import { on, type Caution } from './caution.ts';
import { OPERATION_IDS } from '../operations/all.ts';

const operations = OPERATION_IDS;

/** Fire, hot drops and explosive places. */
export const FIRE_CAUTIONS: readonly Caution[] = [
  {
    key: 'hot drops',
    severity: 'can injure',
    title: 'Hot drops fly and run, into boots, collars, hoses and openings',
    action:
      'Clear or guard everything that burns within 35 ft, and farther where drops can fall or the wind carries them. Screen the work, cover hoses and cylinders, keep others out.',
    triggers: [{ operations }, { functions: ['BURN.FIRE.REACH'] }],
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(vii)',
  },
  {
    key: 'fire watch',
    severity: 'can kill',
    title: 'Smouldering fires start after the crew has left',
    action:
      'Keep a trained fire watch with charged extinguishing equipment during the work and at least half an hour after; by NFPA 51B (2019) an hour, and monitoring up to three hours more. Follow the stricter rule of the place and the permit.',
    triggers: [{ operations }, { functions: ['BURN.FIRE'] }],
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(iii); NFPA 51B (2019) 5.6',
    also: ['nfpa 51b 2019'],
  },
  {
    key: 'drops from height',
    severity: 'can kill',
    title: 'From a height, drops reach far beyond 35 ft and fall on whoever is below',
    action:
      'Work out the reach from the height, rope off and guard the ground below, hang blankets or trays under the work, put a second watch at the bottom.',
    triggers: on('height', 'people below'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(iii)(A)',
  },
  {
    key: 'wind carries sparks',
    severity: 'can injure',
    title: 'Wind carries sparks past the guards',
    action: 'Widen the cleared ground downwind, turn the screens, and stop when sparks get away.',
    triggers: on('wind'),
    source: 'common practice',
    clause: '',
  },
  {
    key: 'combustibles',
    severity: 'can kill',
    title: 'Combustibles within reach catch fire',
    action:
      'Move them out of reach. What cannot be moved is wetted down, covered with flame-proofed covers or shielded, and watched. Where neither can be done, no hot work.',
    triggers: on('combustibles'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(vii) and (a)(1)',
  },
  {
    key: 'openings',
    severity: 'can kill',
    title: 'Sparks fall through openings onto what lies below or behind',
    action:
      'Close or cover floor openings, cracks, grating, doors, windows and ducts within the reach; stop conveyors; clear what is below and watch it.',
    triggers: on('floor openings'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(i) and (viii)',
  },
  {
    key: 'far side',
    severity: 'can kill',
    title: 'Heat goes through walls and plates and lights what is on the far side',
    action: 'Look at the far side first, move what can burn, and put a watch there during and after the work.',
    triggers: on('partition'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(x) and (xii)',
  },
  {
    key: 'explosive air',
    severity: 'can kill',
    title: 'Flammable gas, vapour or dust explodes',
    action:
      'No hot work until the source is removed, the place is ventilated and a qualified person has tested the air. Test again during the work.',
    triggers: on('flammable', 'dust'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(2)(vi)',
  },
  {
    key: 'used containers',
    severity: 'can kill',
    title: 'A drum, tank or pipe that has held something can explode when heated',
    action:
      'Do not heat it until it has been cleaned, disconnected or blanked, vented and tested by a qualified person. Empty does not mean clean.',
    triggers: on('container'),
    source: 'osha 1910.252',
    clause: '1910.252(a)(3)(i)',
  },
  {
    key: 'tyre',
    severity: 'can kill',
    title: 'A tyre on a heated wheel can explode, minutes or hours later',
    action:
      'Take the wheel off and the tyre down before any heat comes near the wheel, studs or hub. Letting the air out is not enough. Keep out of the line of the rim.',
    triggers: on('tyre'),
    source: 'osha 1910.177',
    clause: '1910.177(f) (from memory)',
  },
  {
    key: 'battery gas',
    severity: 'can injure',
    title: 'A lead-acid battery gives off hydrogen and bursts at a spark; shorted, it burns',
    action:
      'Make the last connection away from the battery, ventilate it, cover the terminals, fit a switch or fuse in the lead, and wear a face shield. Strike well away from it.',
    triggers: [...on('battery'), { functions: ['BURN.BATTERY'] }],
    source: 'common practice',
    clause: '',
  },
];
