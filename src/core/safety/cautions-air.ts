import { on, type Caution } from './caution.ts';
import { LIMITS } from './limits.ts';
import { OPERATION_IDS } from '../operations/all.ts';

/** What is breathed. */
export const AIR_CAUTIONS: readonly Caution[] = [
  {
    key: 'confined space',
    severity: 'can kill',
    title: 'A confined space kills those who go in and those who go in after them',
    action:
      "Entry by the employer's permit only: isolate, test oxygen, flammable gas and toxics before and during, ventilate by fan, keep an attendant outside with a means of rescue. Lifelines where there is a manhole.",
    triggers: on('confined'),
    source: 'osha 1910.146',
    clause: '1910.146(c) to (f); 1910.252(b)(4) and (c)(4)',
    also: ['osha 1910.252'],
  },
  {
    key: 'fume',
    severity: 'can injure',
    title: 'The smoke holds iron oxide and manganese',
    action:
      'Keep the head out of the plume and work upwind. Exhaust at the work, or wear a respirator chosen by a competent person. Only an air sample in the breathing zone shows the exposure.',
    triggers: [{ operations: OPERATION_IDS }, { functions: ['BURN.AIR.FUME'] }],
    source: 'osha 1910.1000',
    clause: 'Table Z-1',
  },
  {
    key: 'fume over limit',
    severity: 'can injure',
    title: 'Iron oxide or manganese above a limit',
    action:
      'Cut the time, move more air, exhaust at the work, or wear supplied air within a respiratory protection programme. Have the air sampled.',
    triggers: on(
      { condition: 'iron oxide', above: LIMITS.ironOxide.value },
      { condition: 'manganese fume', above: LIMITS.manganeseAdvised.value },
    ),
    source: 'osha 1910.1000',
    clause: 'Table Z-1; NIOSH 1 mg/m3 of manganese over 8 hours',
    also: ['niosh pocket guide'],
  },
  {
    key: 'ventilation',
    severity: 'can injure',
    title: 'Indoors, fans are due: 2000 cfm for each person at the work',
    action:
      'Ventilate by fan where there is less than 10,000 cu ft for each person, a ceiling under 16 ft, a confined space or partitions, unless there is exhaust at the work or supplied air.',
    triggers: [...on('indoors', 'confined'), { functions: ['BURN.AIR.FRESH', 'BURN.AIR.FUME', 'BURN.AIR.PEOPLE'] }],
    source: 'osha 1910.252',
    clause: '1910.252(c)(2)',
  },
  {
    key: 'zinc',
    severity: 'can injure',
    title: 'Zinc fume brings on metal fume fever',
    action:
      'Take the coating off where the heat will reach, exhaust at the work indoors, wear a respirator for metal fume, stay upwind.',
    triggers: on('galvanised'),
    source: 'osha 1910.252',
    clause: '1910.252(c)(6)',
  },
  {
    key: 'cadmium',
    severity: 'can kill',
    title: 'Cadmium fume kills: it does its harm hours after a single exposure without warning',
    action:
      'Do not burn cadmium plate. Take it off first by a method without heat, or use exhaust at the work or supplied air, outdoors too. Air sampling and the cadmium rule apply.',
    triggers: on('cadmium'),
    source: 'osha 1910.252',
    clause: '1910.252(c)(9); 29 CFR 1910.1027',
    also: ['osha 1910.1027'],
  },
  {
    key: 'lead',
    severity: 'can injure',
    title: 'Lead in paint or metal goes into the smoke and poisons slowly',
    action:
      'Have the coating tested. Strip it well back from the heat, exhaust at the work, wear a respirator outdoors too, wash before eating, keep work clothes apart. The lead rule applies.',
    triggers: on('lead paint'),
    source: 'osha 1910.252',
    clause: '1910.252(c)(7); 29 CFR 1910.1025',
    also: ['osha 1910.1025'],
  },
  {
    key: 'beryllium',
    severity: 'can kill',
    title: 'Beryllium fume does lasting, deadly harm to the lungs in traces',
    action:
      'Do not burn it where another way exists. Exhaust at the work and supplied air, indoors and out, unless tests under the worst conditions show otherwise. The beryllium rule applies.',
    triggers: on('beryllium copper'),
    source: 'osha 1910.252',
    clause: '1910.252(c)(8); 29 CFR 1910.1024',
    also: ['osha 1910.1024'],
  },
  {
    key: 'chromium',
    severity: 'can injure',
    title: 'Stainless steel and chromium plate give off hexavalent chromium, which causes cancer',
    action: 'Exhaust at the work or supplied air. The chromium (VI) rule applies, with air sampling.',
    triggers: on('stainless'),
    source: 'osha 1910.1026',
    clause: '1910.1026; 1910.252(c)(12)',
    also: ['osha 1910.252'],
  },
  {
    key: 'manganese steel',
    severity: 'can injure',
    title: 'Manganese steel gives off many times the manganese of plain steel',
    action:
      'Treat the smoke as above the manganese limit until a sample says otherwise: exhaust at the work or supplied air.',
    triggers: on('manganese steel'),
    source: 'osha 1910.1000',
    clause: 'Table Z-1, manganese fume',
  },
  {
    key: 'unknown coating',
    severity: 'can injure',
    title: 'An unknown coating may burn fast or give off poison',
    action:
      'Have a competent person test it. Strip what burns fast from the heated area; strip toxic coatings at least 4 in back from the heat in enclosed spaces or wear supplied air, and a respirator outdoors.',
    triggers: on('paint'),
    source: 'osha 1926.354',
    clause: '1926.354(a) to (c)',
  },
  {
    key: 'hot polymer',
    severity: 'can injure',
    title: 'Heated plastic and fluoropolymer bushes give off poisonous gas',
    action:
      'Take them out first. Where that cannot be done, stay out of the smoke, use supplied air, and do not touch the residue with bare hands.',
    triggers: on('polymer bushing'),
    source: 'osha 1910.252',
    clause: '1910.252(c)(5), fluorine compounds',
  },
  {
    key: 'silica',
    severity: 'can injure',
    title: 'Dust and smoke of concrete and rock hold silica',
    action:
      'Keep the dust down with water where that does not bring steam or shock, exhaust at the work, wear a respirator. The silica rule applies.',
    triggers: [{ operations: ['BREACH'] }, ...on('concrete')],
    source: 'osha 1926.1153',
    clause: '1926.1153',
  },
];
