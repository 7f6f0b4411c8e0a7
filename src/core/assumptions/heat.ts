import type { Assumption } from './assumption.ts';

/** Heating of a pin while its core is burnt out, and its cooling. */
export const HEAT_ASSUMPTIONS = [
  {
    name: 'ambient temperature', summary: 'Air and surroundings, and pin and boss before the work',
    quantity: 'temperature', unit: 'F', value: 70, low: 20, high: 100, min: -60, max: 150, kind: 'convention', source: 'convention',
  },
  {
    name: 'cooling water temperature', summary: 'Water run through the bore and over the boss',
    quantity: 'temperature', unit: 'F', value: 60, low: 40, high: 90, min: 33, max: 200, kind: 'convention', source: 'convention',
  },
  {
    name: 'cooling target in air', summary: 'Hottest part of the pin at which the push starts after cooling in air',
    quantity: 'temperature', unit: 'F', value: 300, low: 200, high: 400, min: -40, max: 1500, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cooling target with water', summary: 'Hottest part of the pin at which the push starts after cooling with water: when it stops boiling off',
    quantity: 'temperature', unit: 'F', value: 200, low: 120, high: 212, min: 33, max: 1500, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pin over boss when pushed', summary: 'How much hotter than the boss the pin may be, on the mean, before the push starts',
    quantity: 'temperatureDifference', unit: 'F', value: 5, low: 2, high: 20, min: -500, max: 500, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'boss over pin', summary: 'Outside diameter of the boss over the pin\'s diameter, with the steel round it that warms up',
    quantity: 'ratio', unit: '', value: 2.5, low: 1.8, high: 4, min: 1.05, max: 20, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'length over diameter', summary: 'Length of a pin over its diameter, where a function is not told',
    quantity: 'ratio', unit: '', value: 2.5, low: 1, high: 5, min: 0.1, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'heat into the part', summary: 'Heat that burning leaves in pin and boss for each unit of pin removed: most of the heat lost, and some of the slag\'s',
    quantity: 'heatPerMass', unit: 'MJ/kg', value: 0.8, low: 0.4, high: 1.4, min: 0.02, max: 8, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'burning pace', summary: 'Pin removed for each minute at the work, pauses and rod changes counted, as far as heating goes; an item\'s own rods set its burning time',
    quantity: 'massRate', unit: 'lb/min', value: 0.9, low: 0.5, high: 1.5, min: 0.01, max: 200, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'pilot width', summary: 'Width of the pilot pierced before the bore is widened, as far as heating goes',
    quantity: 'length', unit: 'in', value: 0.75, low: 0.5, high: 1, min: 0.05, max: 12, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'heated zone', summary: 'Length of bore wall that the flame and its slag heat at a time',
    quantity: 'length', unit: 'in', value: 3, low: 1, high: 6, min: 0.1, max: 120, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'joint conductance', summary: 'Heat conductance of the seized joint between pin and boss: metal contact, rust and gaps',
    quantity: 'heatTransfer', unit: 'W/m2K', value: 2000, low: 500, high: 10000, min: 1, max: 1000000, kind: 'common practice', source: 'contact resistance',
  },
  {
    name: 'surface emissivity', summary: 'Emissivity of scaled steel, for radiation',
    quantity: 'ratio', unit: '', value: 0.8, low: 0.6, high: 0.95, min: 0.01, max: 1, kind: 'published', source: 'incropera',
  },
  {
    name: 'wet boss share', summary: 'Share of the boss\'s outside kept wet while water runs through the bore; a dry boss stays wide while the pin shrinks',
    quantity: 'ratio', unit: '', value: 0.25, low: 0, high: 1, min: 0, max: 1, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'boiling surface factor', summary: 'Rohsenow\'s surface factor of water boiling on steel',
    quantity: 'ratio', unit: '', value: 0.0132, low: 0.006, high: 0.016, min: 0.002, max: 0.1, kind: 'published', source: 'kreith',
  },
  {
    name: 'boiling flux factor', summary: 'Largest boiling flux over that of still water at its boiling point; cold and running water raise it',
    quantity: 'ratio', unit: '', value: 2, low: 1, high: 5, min: 0.1, max: 20, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'film boiling limit', summary: 'Wall temperature above which a film of steam keeps the water off; cold water, scale and roughness raise it',
    quantity: 'temperature', unit: 'F', value: 850, low: 480, high: 1300, min: 400, max: 2000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'wall melting point', summary: 'Temperature at which the bore wall melts away instead of getting hotter',
    quantity: 'temperature', unit: 'F', value: 2700, low: 2550, high: 2800, min: 1800, max: 3300, kind: 'common practice', source: 'common practice',
  },
] as const satisfies readonly Assumption[];
