import type { Source } from './source.ts';

/** Materials other than carbon steel, and what the operations besides the pin rest on. */
export const OPERATION_SOURCES = [
  {
    key: 'metal densities',
    citation:
      'ASM Metals Handbook Desk Edition (gray cast iron 6950 to 7350 kg/m3); common engineering tables for stainless and manganese steel, copper and aluminium',
    edition: '2nd edition, 1998, read as a web copy of the table',
    usedFor: 'Densities of metals other than carbon steel',
  },
  {
    key: 'concrete density',
    citation:
      'NIST, PSTAR database, ordinary Portland concrete, 2.30 g/cm3 without reinforcement; EN 1991-1-1 has 25 kN/m3 with it',
    edition: 'NIST 2.30 read in a copy; EN 2002',
    usedFor: 'Density of concrete without its steel; rock of about 2700 kg/m3 is common practice',
  },
  {
    key: 'concrete melting',
    citation:
      'Sum of parts: specific heat of concrete (EN 1992-1-2, 3.3.2), heats of drying and decomposition (Sevon, VTT Research Notes 2311), heat of fusion of a basaltic liquid (Fukuyama, Earth and Planetary Science Letters 73, 407)',
    edition: '2004; 2005; 1985',
    usedFor: "Heat to melt concrete, with a wide range since the melt's composition is not known",
  },
  {
    key: 'rock melting',
    citation:
      'Fukuyama, Heat of fusion of basaltic magma, Earth and Planetary Science Letters 73, 407 (121 to 162 cal/g), with a specific heat of 1.0 to 1.2 kJ/kg K to 1500 K',
    edition: '1985',
    usedFor: 'Heat to melt rock, with a wide range',
  },
  {
    key: 'lance handbook',
    citation:
      'Rules of thumb for oxygen lances in a Polish trade handbook: oxygen for a metre of hole of 20 to 40 mm, 6 to 8 m3 in cast iron, 3 to 6 in concrete, 10 to 15 in rock; lance consumed 5 to 6 times the depth',
    edition: 'read as a web copy; secondary',
    usedFor: 'A check of burning bars, met in concrete and not in cast iron and rock; no figure rests on it',
  },
  {
    key: 'oxygen purity',
    citation:
      'Welding course text: 98.5 % oxygen in place of 99.5 % cuts about 15 % slower and takes about 25 % more oxygen; below 95 % the familiar cutting becomes melting and washing, as a rule not acceptable',
    edition: 'read as a web copy; secondary',
    usedFor: 'What impure oxygen costs, taken over from torch cutting of steel',
  },
  {
    key: 'oxygen in molten oxide',
    citation:
      'The solubility of oxygen in liquid iron oxide during the combustion of iron rods in high-pressure oxygen, Combustion and Flame 113, 27: up to 2.1 oxygen atoms and possibly more for each of iron',
    edition: '1998, abstract read',
    usedFor: 'A look at the product of burning; no figure rests on it',
  },
  {
    key: 'burning iron',
    citation:
      'Wilson, Steinberg and Stoltzfus, Thermodynamics and Kinetics of Burning Iron, ASTM STP 1319: 365.2 kJ/mol of iron at 298 K',
    edition: '1997, abstract read',
    usedFor: 'A look at the heat of burning; no figure rests on it',
  },
] as const satisfies readonly Source[];
