/**
 * The quantities the project handles, their units, and the plain-number unit of each system.
 *
 * A value in SI is `entered * factor + offset`. Pressures are gauge unless the unit says absolute.
 * Oxygen amounts are masses in core; a volume text is turned into mass on the basis its unit names.
 *
 * Sources: exact factors from the definitions of the international yard and pound (1959) and the SI;
 * oxygen masses of a standard cubic foot (70 F, 14.696 psia) and a cubic metre (15 C, 1 atm) from the
 * reference equation of state (Schmidt and Wagner 1985; Stewart, Jacobsen and Wagner 1991).
 */
export const INCH = 0.0254;
export const FOOT = 0.3048;
export const CUBIC_FOOT = FOOT ** 3;
export const POUND = 0.45359237;
export const GRAVITY = 9.80665;
export const POUND_FORCE = POUND * GRAVITY;
export const PSI = POUND_FORCE / INCH ** 2;
export const ATMOSPHERE = 101325;
export const GAS_CONSTANT = 8.31446261815324;
/** kg of oxygen in one standard cubic foot, 70 F and 14.696 psia. */
export const SCF = 0.0375521146;
/** kg of oxygen in one cubic metre at 15 C and 101.325 kPa. */
export const CUBIC_METRE_15C = 1.3543637;
/** kg of oxygen in one normal cubic metre, 0 C and 101.325 kPa. */
const NORMAL_CUBIC_METRE = 1.4290328;

export interface Unit {
  readonly factor: number;
  readonly offset?: number;
}

export interface Quantity {
  /** Unit of plain numbers in US customary use. */
  readonly us: string;
  /** Unit of plain numbers where the assumption `units` is SI. */
  readonly si: string;
  readonly units: Readonly<Record<string, Unit>>;
}

const one = (name: string, others: Readonly<Record<string, Unit>> = {}): Quantity => ({
  us: name,
  si: name,
  units: { [name]: { factor: 1 }, ...others },
});

const LENGTHS: Readonly<Record<string, Unit>> = {
  in: { factor: INCH },
  ft: { factor: FOOT },
  yd: { factor: 3 * FOOT },
  mm: { factor: 1e-3 },
  cm: { factor: 1e-2 },
  m: { factor: 1 },
};

const OXYGEN_VOLUMES: Readonly<Record<string, Unit>> = {
  scf: { factor: SCF },
  m3: { factor: CUBIC_METRE_15C },
  Nm3: { factor: NORMAL_CUBIC_METRE },
  kg: { factor: 1 },
  lb: { factor: POUND },
};

export const QUANTITIES = {
  /** Length where a plain number is inch or mm. */
  length: { us: 'in', si: 'mm', units: LENGTHS },
  /** Length where a plain number is foot or m. */
  distance: { us: 'ft', si: 'm', units: LENGTHS },
  /** Gauge pressure. */
  pressure: {
    us: 'psi',
    si: 'bar',
    units: {
      psi: { factor: PSI },
      bar: { factor: 1e5 },
      kPa: { factor: 1e3 },
      MPa: { factor: 1e6 },
      Pa: { factor: 1 },
      psia: { factor: PSI, offset: -ATMOSPHERE },
      'bar abs': { factor: 1e5, offset: -ATMOSPHERE },
    },
  },
  /** Contact pressure or stress, never gauge. */
  stress: {
    us: 'psi',
    si: 'MPa',
    units: {
      psi: { factor: PSI },
      ksi: { factor: 1e3 * PSI },
      MPa: { factor: 1e6 },
      GPa: { factor: 1e9 },
      Pa: { factor: 1 },
    },
  },
  oxygen: { us: 'scf', si: 'm3', units: OXYGEN_VOLUMES },
  flow: {
    us: 'scfm',
    si: 'm3/h',
    units: {
      scfm: { factor: SCF / 60 },
      scfh: { factor: SCF / 3600 },
      'm3/h': { factor: CUBIC_METRE_15C / 3600 },
      'L/min': { factor: CUBIC_METRE_15C / 60e3 },
      'kg/s': { factor: 1 },
      'kg/min': { factor: 1 / 60 },
    },
  },
  time: { us: 'min', si: 'min', units: { min: { factor: 60 }, s: { factor: 1 }, h: { factor: 3600 } } },
  /** Times so short that a plain number is seconds. */
  seconds: { us: 's', si: 's', units: { s: { factor: 1 }, min: { factor: 60 }, h: { factor: 3600 } } },
  hours: { us: 'h', si: 'h', units: { min: { factor: 60 }, s: { factor: 1 }, h: { factor: 3600 } } },
  mass: {
    us: 'lb',
    si: 'kg',
    units: { lb: { factor: POUND }, kg: { factor: 1 }, g: { factor: 1e-3 }, oz: { factor: POUND / 16 } },
  },
  /** Pushing and holding forces. */
  force: {
    us: 'ton',
    si: 'kN',
    units: {
      ton: { factor: 2000 * POUND_FORCE },
      kN: { factor: 1e3 },
      N: { factor: 1 },
      lbf: { factor: POUND_FORCE },
      kip: { factor: 1e3 * POUND_FORCE },
    },
  },
  temperature: {
    us: 'F',
    si: 'C',
    units: { F: { factor: 5 / 9, offset: (459.67 * 5) / 9 }, C: { factor: 1, offset: 273.15 }, K: { factor: 1 } },
  },
  /** A difference of temperatures. */
  temperatureDifference: { us: 'F', si: 'C', units: { F: { factor: 5 / 9 }, C: { factor: 1 }, K: { factor: 1 } } },
  /** Burning and slag temperatures, kelvin in both systems. */
  absoluteTemperature: one('K', { C: { factor: 1, offset: 273.15 }, F: { factor: 5 / 9, offset: (459.67 * 5) / 9 } }),
  /** Water volume of a cylinder, litre in both systems. */
  capacity: { us: 'L', si: 'L', units: { L: { factor: 1e-3 }, m3: { factor: 1 }, 'cu ft': { factor: CUBIC_FOOT } } },
  /** Volume of a room, or of metal. */
  volume: {
    us: 'cu ft',
    si: 'm3',
    units: {
      'cu ft': { factor: CUBIC_FOOT },
      m3: { factor: 1 },
      'cu in': { factor: INCH ** 3 },
      L: { factor: 1e-3 },
      cm3: { factor: 1e-6 },
    },
  },
  /** Fresh air, volume at room conditions. */
  airflow: {
    us: 'cfm',
    si: 'm3/h',
    units: {
      cfm: { factor: CUBIC_FOOT / 60 },
      'm3/h': { factor: 1 / 3600 },
      'm3/s': { factor: 1 },
      'L/s': { factor: 1e-3 },
    },
  },
  area: {
    us: 'sq in',
    si: 'mm2',
    units: { 'sq in': { factor: INCH ** 2 }, mm2: { factor: 1e-6 }, cm2: { factor: 1e-4 }, m2: { factor: 1 } },
  },
  speed: {
    us: 'in/min',
    si: 'mm/min',
    units: { 'in/min': { factor: INCH / 60 }, 'mm/min': { factor: 1e-3 / 60 }, 'm/s': { factor: 1 } },
  },
  massRate: {
    us: 'lb/min',
    si: 'kg/min',
    units: { 'lb/min': { factor: POUND / 60 }, 'kg/min': { factor: 1 / 60 }, 'kg/s': { factor: 1 } },
  },
  massPerLength: { us: 'lb/ft', si: 'kg/m', units: { 'lb/ft': { factor: POUND / FOOT }, 'kg/m': { factor: 1 } } },
  pressurePerLength: {
    us: 'psi/in',
    si: 'bar/m',
    units: {
      'psi/in': { factor: PSI / INCH },
      'psi/ft': { factor: PSI / FOOT },
      'bar/m': { factor: 1e5 },
      'Pa/m': { factor: 1 },
    },
  },
  timePerLength: {
    us: 'min/in',
    si: 'min/m',
    units: { 'min/in': { factor: 60 / INCH }, 'min/m': { factor: 60 }, 's/m': { factor: 1 } },
  },
  density: one('kg/m3'),
  specificHeat: one('J/kg K'),
  heatPerMass: {
    us: 'MJ/kg',
    si: 'MJ/kg',
    units: { 'MJ/kg': { factor: 1e6 }, 'kJ/kg': { factor: 1e3 }, 'J/kg': { factor: 1 } },
  },
  energy: { us: 'J', si: 'J', units: { J: { factor: 1 }, kJ: { factor: 1e3 } } },
  power: { us: 'kW', si: 'kW', units: { kW: { factor: 1e3 }, W: { factor: 1 } } },
  heatTransfer: one('W/m2K'),
  conductivity: one('W/m K'),
  diffusivity: { us: 'mm2/s', si: 'mm2/s', units: { 'mm2/s': { factor: 1e-6 }, 'm2/s': { factor: 1 } } },
  /** A pure number. */
  ratio: one('', { '%': { factor: 0.01 } }),
  percent: { us: '%', si: '%', units: { '%': { factor: 0.01 } } },
  count: one(''),
  level: one('dBA', { dB: { factor: 1 } }),
  current: one('A'),
  voltage: one('V'),
  resistivity: { us: 'ohm mm2/m', si: 'ohm mm2/m', units: { 'ohm mm2/m': { factor: 1e-6 } } },
  charge: { us: 'Ah', si: 'Ah', units: { Ah: { factor: 3600 } } },
  concentration: { us: 'mg/m3', si: 'mg/m3', units: { 'mg/m3': { factor: 1e-6 } } },
  /** Money of any kind, each or in sum, and for an amount of oxygen or a time. */
  money: one('money'),
  moneyPerMass: {
    us: 'money/scf',
    si: 'money/m3',
    units: { 'money/scf': { factor: 1 / SCF }, 'money/m3': { factor: 1 / CUBIC_METRE_15C } },
  },
  /** Rods by the weight of their steel. */
  moneyPerSteel: {
    us: 'money/lb',
    si: 'money/kg',
    units: { 'money/lb': { factor: 1 / POUND }, 'money/kg': { factor: 1 } },
  },
  moneyPerTime: { us: 'money/h', si: 'money/h', units: { 'money/h': { factor: 1 / 3600 } } },
  oxygenPerMass: {
    us: 'scf/lb',
    si: 'm3/kg',
    units: { 'scf/lb': { factor: SCF / POUND }, 'm3/kg': { factor: CUBIC_METRE_15C }, 'kg/kg': { factor: 1 } },
  },
} as const satisfies Record<string, Quantity>;

export type QuantityName = keyof typeof QUANTITIES;
export type UnitSystem = 'US' | 'SI';
