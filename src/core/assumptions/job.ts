import type { Assumption } from './assumption.ts';

/** A whole job: what to load, what it costs, how it is scheduled, and how a log of finished jobs is read. */
export const JOB_ASSUMPTIONS = [
  // Its range is about what that of `holder orifice` does to the flow of a 3/8 rod (0.74 to 1.13), and some packing besides.
  {
    name: 'flow factor', summary: 'Flow at the work over the flow calculated for the tip pressure: throttled valve, worn holder, packing of the wires',
    quantity: 'ratio', unit: '', value: 1, low: 0.75, high: 1.2, min: 0.1, max: 5, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'battery capacity', summary: 'Charge of one battery for lighting rods, as rated over 20 hours',
    quantity: 'charge', unit: 'Ah', value: 100, low: 60, high: 120, min: 1, max: 2000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'plates per pin', summary: 'Guide and shield plates used up on one pin; some serve twice, some burn through',
    quantity: 'ratio', unit: '', value: 2, low: 1.5, high: 2.75, min: 0, max: 20, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'day length', summary: 'Hours the crew works in a day, for what is priced by the day',
    quantity: 'hours', unit: 'h', value: 8, low: 8, high: 8, min: 0.5, max: 24, kind: 'convention', source: 'convention',
  },
  {
    name: 'burning noise', summary: 'Noise at the burner\'s ear while a rod burns, protectors not counted',
    quantity: 'level', unit: 'dBA', value: 105, low: 98, high: 112, min: 30, max: 140, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'protector reduction', summary: 'What the hearing protectors worn take off the noise, as derated by the rule that applies',
    quantity: 'level', unit: 'dBA', value: 15, low: 8, high: 25, min: 0, max: 50, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'noise rule', summary: 'Rule that limits the noise dose of a shift',
    choices: ['NIOSH', 'OSHA', 'EU'], value: 'OSHA', kind: 'convention', source: 'convention',
  },
  {
    name: 'fire watch rule', summary: 'Rule that sets how long the place is watched after the last burning',
    choices: ['NFPA 51B 2019', 'NFPA 51B 2014', 'NFPA 51B 2009', 'OSHA'], value: 'NFPA 51B 2019', kind: 'convention', source: 'convention',
  },
  {
    name: 'log rods scatter', summary: 'How far the rods noted for a job depart from the fit by themselves, besides item scatter and whole rods; a standard deviation',
    quantity: 'ratio', unit: '', value: 0.05, low: 0.03, high: 0.1, min: 0.005, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'log oxygen scatter', summary: 'How far the oxygen noted for a job departs from the fit by itself, gauge readings included; a standard deviation',
    quantity: 'ratio', unit: '', value: 0.06, low: 0.03, high: 0.12, min: 0.005, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'log burning scatter', summary: 'How far the burning minutes noted for a job depart from the fit by themselves; a standard deviation',
    quantity: 'ratio', unit: '', value: 0.08, low: 0.04, high: 0.15, min: 0.005, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'log crew scatter', summary: 'How far the crew minutes noted for a job depart from the fit by themselves; a standard deviation',
    quantity: 'ratio', unit: '', value: 0.12, low: 0.06, high: 0.25, min: 0.005, max: 2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'log scatter worth', summary: 'How many noted figures the scatter stated here counts for, before the log\'s own takes over',
    quantity: 'ratio', unit: '', value: 20, low: 20, high: 20, min: 1, max: 1000000, kind: 'convention', source: 'convention',
  },
  {
    name: 'log trust', summary: 'Share of sound jobs that count fully; a job wilder than that counts less, and is named',
    quantity: 'percent', unit: '%', value: 99, low: 99, high: 99, min: 50, max: 100, kind: 'convention', source: 'huber',
  },
] as const satisfies readonly Assumption[];
