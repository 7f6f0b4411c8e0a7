import type { Assumption } from './assumption.ts';

/** The oxygen supply: cylinders and what is lost in changing them, regulator, hose, water over the work. */
export const OXYGEN_ASSUMPTIONS = [
  // Cylinders
  {
    name: 'cylinder volume', summary: 'Water volume of one oxygen cylinder',
    quantity: 'capacity', unit: 'L', value: 43, low: 42, high: 50, min: 0.5, max: 1000, kind: 'published', source: 'army welding manual',
  },
  {
    name: 'cylinder pressure', summary: 'Fill pressure of one oxygen cylinder at 70 F; what it reads at another temperature follows',
    quantity: 'pressure', unit: 'psi', value: 2200, low: 2000, high: 2300, min: 50, max: 4300, kind: 'published', source: 'army welding manual',
  },
  {
    name: 'leftover pressure', summary: 'Pressure left in the cylinder when it is changed; more where the regulator needs more: its delivery pressure and droop',
    quantity: 'pressure', unit: 'psi', value: 250, low: 150, high: 400, min: 0, max: 2000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'delivery pressure', summary: 'Regulator\'s outlet pressure where cylinders are counted without a plan, for what must be left in them',
    quantity: 'pressure', unit: 'psi', value: 100, low: 70, high: 160, min: 0, max: 500, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cylinder rating', summary: 'Service pressure of the cylinder; a fill more than a tenth above it is refused. A size named from the register brings its own',
    quantity: 'pressure', unit: 'psi', value: 2900, low: 2015, high: 2900, min: 100, max: 4300, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cylinders on manifold', summary: 'Cylinders drawn together',
    quantity: 'count', unit: '', value: 1, low: 1, high: 1, min: 1, max: 64, kind: 'convention', source: 'convention',
  },
  {
    name: 'cylinder draw flow', summary: 'Flow at which cylinders are drawn, all together, while counting them; the faster, the colder',
    quantity: 'flow', unit: 'scfm', value: 10, low: 5, high: 20, min: 0.1, max: 500, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cylinder change loss', summary: 'Oxygen lost in putting a cylinder on: cracking the valve, purging regulator and hose',
    quantity: 'oxygen', unit: 'scf', value: 2, low: 0.5, high: 5, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cylinder steel', summary: 'Mass of the steel of a cylinder over its water volume',
    quantity: 'density', unit: 'kg/m3', value: 1300, low: 1100, high: 1500, min: 100, max: 4000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cylinder inside diameter', summary: 'Inside diameter of one cylinder, for the heat its wall gives the gas',
    quantity: 'length', unit: 'in', value: 8.5, low: 7, high: 9, min: 2, max: 40, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'cylinder steel heat', summary: 'Specific heat of the steel of a cylinder',
    quantity: 'specificHeat', unit: 'J/kg K', value: 440, low: 430, high: 480, min: 300, max: 1000, kind: 'published', source: 'en 1993-1-2',
  },
  {
    name: 'cylinder inside convection', summary: 'Factor on the natural convection between gas and wall of a cylinder',
    quantity: 'ratio', unit: '', value: 1, low: 0.6, high: 1.5, min: 0.05, max: 10, kind: 'published', source: 'churchill chu wall',
  },
  {
    name: 'cylinder outside film', summary: 'Heat transfer from the air to a standing cylinder, radiation with it',
    quantity: 'heatTransfer', unit: 'W/m2K', value: 10, low: 5, high: 25, min: 0, max: 1000, kind: 'common practice', source: 'common practice',
  },
  // Regulator
  {
    name: 'regulator set', summary: 'Whether the regulator\'s setting is read while oxygen flows, or with the line standing',
    choices: ['flowing', 'standing'], value: 'flowing', kind: 'convention', source: 'common practice',
  },
  {
    name: 'regulator droop', summary: 'Fall of the regulator\'s outlet from standing to the flow of the row `regulator droop flow`',
    quantity: 'pressure', unit: 'psi', value: 6, low: 2, high: 15, min: 0, max: 100, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'regulator droop flow', summary: 'Flow at which `regulator droop` was read',
    quantity: 'flow', unit: 'scfm', value: 20, low: 20, high: 20, min: 0.5, max: 1000, kind: 'convention', source: 'common practice',
  },
  {
    name: 'regulator supply effect', summary: 'Rise of the regulator\'s outlet over the fall of the cylinder\'s pressure; near 0 for two stages',
    quantity: 'ratio', unit: '', value: 0.01, low: 0, high: 0.02, min: 0, max: 0.2, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'regulator valve', summary: 'Equivalent diameter of the regulator\'s valve wide open, as an orifice',
    quantity: 'length', unit: 'in', value: 0.12, low: 0.08, high: 0.2, min: 0.01, max: 2, kind: 'common practice', source: 'common practice',
  },
  // Hose
  {
    name: 'hose length', summary: 'Length of hose from regulator to holder, where a plan works out the regulator\'s setting',
    quantity: 'distance', unit: 'ft', value: 50, low: 25, high: 100, min: 1, max: 3000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'hose bore', summary: 'Bore of that hose',
    quantity: 'length', unit: 'in', value: 0.375, low: 0.375, high: 0.375, min: 0.05, max: 6, kind: 'published', source: 'navy underwater cutting',
  },
  {
    name: 'hose fittings', summary: 'Loss coefficients K of a hose\'s couplings, flashback arrestor and valve together, on its bore; 0 counts the hose alone, 2 to 10 is usual',
    quantity: 'ratio', unit: '', value: 0, low: 0, high: 10, min: 0, max: 1000, kind: 'common practice', source: 'common practice',
  },
  {
    name: 'hose roughness', summary: 'Roughness of a hose\'s bore; rubber counts as smooth',
    quantity: 'length', unit: 'in', value: 0, low: 0, high: 0.0004, min: 0, max: 0.02, kind: 'common practice', source: 'common practice',
  },
  // Water over the work
  {
    name: 'water depth', summary: 'Depth of work under water, where a plan works out the regulator\'s setting',
    quantity: 'distance', unit: 'ft', value: 0, low: 0, high: 0, min: 0, max: 1000, kind: 'convention', source: 'common practice',
  },
  {
    name: 'water', summary: 'Water over work at depth: salt or fresh',
    choices: ['salt', 'fresh'], value: 'salt', kind: 'convention', source: 'common practice',
  },
  {
    name: 'salt water column', summary: 'Pressure of sea water for each foot of depth',
    quantity: 'pressurePerLength', unit: 'psi/ft', value: 0.445, low: 0.442, high: 0.446, min: 0.4, max: 0.6, kind: 'published', source: 'navy diving manual',
  },
  {
    name: 'fresh water column', summary: 'Pressure of fresh water for each foot of depth',
    quantity: 'pressurePerLength', unit: 'psi/ft', value: 0.4335, low: 0.431, high: 0.4335, min: 0.4, max: 0.6, kind: 'published', source: 'conventional water',
  },
] as const satisfies readonly Assumption[];
