import type { Source } from './source.ts';

export const GENERAL_SOURCES = [
  {
    key: 'common practice',
    citation: 'Common practice of the trade; no published source was found',
    edition: 'none',
    usedFor: "Defaults given as ranges, to be replaced by the user's own log",
  },
  {
    key: 'convention',
    citation: 'Convention of this project',
    edition: 'none',
    usedFor: 'Choices of units and of layout',
  },
  {
    key: 'arithmetic',
    citation: 'Geometry and arithmetic',
    edition: 'none',
    usedFor: 'Steps that only combine earlier ones',
  },
  {
    key: 'churchill usagi',
    citation:
      'Churchill and Usagi, AIChE Journal 18, 1121; named in Churchill, Industrial and Engineering Chemistry Research 40, 3053',
    edition: '1972 (from memory); 2001, abstract read',
    usedFor: 'How two limits of one pace are blended; not the power',
  },
  {
    key: 'unit definitions',
    citation: 'International yard and pound agreement, and the International System of Units (BIPM)',
    edition: '1959; 9th edition of the SI brochure, 2019',
    usedFor: 'Conversion factors',
  },
  {
    key: 'navy underwater cutting',
    citation: 'US Navy, Underwater Cutting and Welding Manual, S0300-BB-MAN-010',
    edition: '1989 and reprints',
    usedFor: 'Stub of an exothermic electrode, tip pressure, hose bore, and a burning bar through reinforced concrete',
  },
  {
    key: 'nasa polynomials',
    citation: 'McBride, Zehe and Gordon, NASA/TP-2002-211556, polynomials for iron and its oxides (JANAF data)',
    edition: '2002',
    usedFor: 'Heat of burning iron and heat content of iron and slag',
  },
  {
    key: 'asme b36.10',
    citation: 'ASME B36.10M, Welded and Seamless Wrought Steel Pipe',
    edition: '2018 (from memory, not verified)',
    usedFor: 'Outside diameters and walls of burning bars in pipe sizes',
  },
  {
    key: 'isothermal pipe flow',
    citation:
      "Crane Co., Technical Paper 410, isothermal compressible flow with friction; Perry's Chemical Engineers' Handbook, section 6",
    edition: 'TP-410, 1988 and later; equation as usually printed',
    usedFor: 'Flow of oxygen through rods and hoses',
  },
  {
    key: 'army welding manual',
    citation: "US Army, Operator's Circular, Welding Theory and Application, TC 9-237",
    edition: '1993',
    usedFor: 'Common oxygen cylinder: 220 cu ft at 2000 psi, 244 cu ft at 2200 psi, 70 F',
  },
  {
    key: 'steel density',
    citation: 'EN 1991-1-1, Actions on structures, Table A.4',
    edition: '2002 (from memory, not verified)',
    usedFor: 'Density of steel, 7850 kg/m3',
  },
] as const satisfies readonly Source[];
