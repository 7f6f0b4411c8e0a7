import type { Source } from './source.ts';

/** What the oxygen supply rests on, besides the general sources. */
export const OXYGEN_SOURCES = [
  {
    key: 'oxygen equation of state',
    citation:
      'R. Schmidt and W. Wagner, Fluid Phase Equilibria 19 (1985) 175-200; R. B. Stewart, R. T. Jacobsen and W. Wagner, Thermodynamic Properties of Oxygen from the Triple Point to 300 K with Pressures to 80 MPa, J. Phys. Chem. Ref. Data 20 (1991) 917-1021',
    edition: '1985 and 1991; ideal-gas part as in the open CoolProp fluid file',
    usedFor:
      'Density, heat capacity, enthalpy and speed of sound of oxygen: content of cylinders, flow of the real gas',
  },
  {
    key: 'oxygen viscosity',
    citation:
      'E. W. Lemmon and R. T Jacobsen, Viscosity and Thermal Conductivity Equations for Nitrogen, Oxygen, Argon, and Air, Int. J. Thermophysics 25 (2004) 21-69',
    edition: '2004',
    usedFor: 'Viscosity of oxygen, for the Reynolds number of flow',
  },
  {
    key: 'colebrook',
    citation:
      'C. F. Colebrook, Turbulent flow in pipes, with particular reference to the transition region between the smooth and rough pipe laws, J. Institution of Civil Engineers 11 (1939) 133-156',
    edition: '1939',
    usedFor: 'Friction of turbulent flow in hoses',
  },
  {
    key: 'blasius',
    citation:
      'H. Blasius, Das Aehnlichkeitsgesetz bei Reibungsvorgaengen in Fluessigkeiten, Forschungsheft 131, VDI, Berlin',
    edition: '1913',
    usedFor: 'Friction of turbulent flow in the smooth passages of rods',
  },
  {
    key: 'orifice flow',
    citation:
      'ISO 9300, Measurement of gas flow by means of critical flow nozzles; isentropic flow to a throat as in gas dynamics textbooks',
    edition: '2022 (number and title from memory; equation as usually printed)',
    usedFor: 'Flow through holder and regulator valve',
  },
  {
    key: 'churchill chu wall',
    citation:
      'S. W. Churchill and H. H. S. Chu, Correlating equations for laminar and turbulent free convection from a vertical plate, Int. J. Heat Mass Transfer 18 (1975) 1323-1329',
    edition: '1975 (coefficients from memory, as usually printed)',
    usedFor: 'Heat from the wall of a cylinder to the gas in it',
  },
  {
    key: 'navy diving manual',
    citation: 'US Navy Diving Manual, SS521-AG-PRO-010',
    edition: 'revision 6 or 7',
    usedFor: 'Bottom pressure of 0.445 psi per foot of sea water',
  },
  {
    key: 'conventional water',
    citation: 'ISO 80000-4, Quantities and units, Mechanics: conventional millimetre of water, 9.80665 Pa',
    edition: 'as usually printed',
    usedFor: 'Pressure of fresh water, 0.4335 psi per foot',
  },
  {
    key: '49 cfr 173.302a',
    citation:
      'US Department of Transportation, 49 CFR 173.302a(b), Special filling limits for DOT 3A, 3AX, 3AA, 3AAX and 3T cylinders',
    edition: 'as in force 2013 (PHMSA interpretation 13-0042)',
    usedFor: 'A cylinder marked with a plus sign may be filled to a tenth over its marked service pressure',
  },
] as const satisfies readonly Source[];
