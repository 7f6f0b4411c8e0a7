import type { Source } from './source.ts';

/** What the heating and cooling of a pin rests on. "From memory" means that the text itself was not at hand. */
export const HEAT_SOURCES = [
  {
    key: 'en 1993-1-2',
    citation:
      'EN 1993-1-2, Eurocode 3: Design of steel structures, Part 1-2: Structural fire design, clauses 3.2.1, 3.4.1 and Table 3.1',
    edition:
      '2005 with corrigenda; formulas and table confirmed in independent copies; the newer edition could not be read',
    usedFor:
      'Specific heat with its latent peak, conductivity, elongation, and the fall of yield strength and modulus of steel with temperature',
  },
  {
    key: 'churchill chu',
    citation:
      'S. W. Churchill and H. H. S. Chu, Correlating equations for laminar and turbulent free convection from a horizontal cylinder, Int. J. Heat Mass Transfer 18, 1049',
    edition: '1975; equation confirmed in independent copies',
    usedFor: 'Natural convection of air and water round pin and boss',
  },
  {
    key: 'lemmon jacobsen air',
    citation:
      'E. W. Lemmon and R. T. Jacobsen, Viscosity and thermal conductivity equations for nitrogen, oxygen, argon, and air, Int. J. Thermophysics 25, 21',
    edition: '2004; constants from memory, results confirmed against a reference grid',
    usedFor: 'Viscosity and conductivity of air',
  },
  {
    key: 'incropera',
    citation: 'F. P. Incropera, D. P. DeWitt, T. L. Bergman and A. S. Lavine, Fundamentals of Heat and Mass Transfer',
    edition: '6th, 2007 (from memory)',
    usedFor:
      "View factor of a bore's mouths, exchange of radiation in an enclosure, emissivity of oxidised steel, roots of the cylinder series",
  },
  {
    key: 'kreith',
    citation:
      'F. Kreith, R. M. Manglik and M. S. Bohn, Principles of Heat Transfer, equations 10.2 and 10.4, example 10.1',
    edition: '7th, 2011; example confirmed in a published transcription',
    usedFor: 'Nucleate boiling (Rohsenow) and the largest boiling flux (Zuber)',
  },
  {
    key: 'cengel',
    citation:
      'Y. A. Cengel and A. J. Ghajar, Heat and Mass Transfer: Fundamentals and Applications, equation 10-5, problem 10-47E; and the shaft of chapter 4',
    edition: '4th, 2011; problem confirmed in its solution manual',
    usedFor: 'Film boiling (Bromley), and a transient worked example',
  },
  {
    key: 'iapws transport',
    citation:
      'International Association for the Properties of Water and Steam, releases R12-08, R15-11 and SR6-08 on viscosity and conductivity',
    edition: '2008 and 2011; constants from memory, results confirmed at known points',
    usedFor: 'Viscosity and conductivity of water and steam',
  },
  {
    key: 'contact resistance',
    citation:
      'Thermal contact conductance, encyclopaedia summary of measured resistances from 5e-6 to 5e-4 m2K/W between metals',
    edition: 'web copy; no figure for rusted joints was found',
    usedFor: 'Range of the joint conductance between pin and boss',
  },
  {
    key: 'tr-bdf2',
    citation:
      'R. E. Bank and others, IEEE Trans. Electron Devices 32, 1992; M. E. Hosea and L. F. Shampine, Analysis and implementation of TR-BDF2, Applied Numerical Mathematics 20, 21',
    edition: '1985 and 1996; coefficients re-derived in the tests',
    usedFor: 'Implicit time steps with error control',
  },
  {
    key: 'spray leidenfrost',
    citation:
      'Hnizdil, Kominek, Lee, Raudensky, Carnogurska and Chabicovsky, Prediction of Leidenfrost Temperature in Spray Cooling for Continuous Casting and Heat Treatment Processes, Metals 10: 150 C to over 1000 C by the character of the spray',
    edition: '2020, abstract read',
    usedFor: 'A look at when a film of steam breaks; no figure rests on it',
  },
  {
    key: 'jet rewetting',
    citation:
      'Leocadio and Passos, Experimental investigation of heat transfer characteristics during water jet impingement cooling of a high-temperature steel surface, Ironmaking and Steelmaking: rewetting above 880 C',
    edition: '2021, abstract read',
    usedFor: 'A look at when a film of steam breaks; no figure rests on it',
  },
] as const satisfies readonly Source[];
