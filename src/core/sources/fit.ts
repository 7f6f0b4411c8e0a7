import type { Source } from './source.ts';

/** What grip, push-out and plates rest on. "From memory" means that the text itself was not at hand. */
export const FIT_SOURCES = [
  {
    key: 'lame',
    citation:
      "T. H. Brown, Jr., Marks' Calculations for Machine Design, interference fits, example 6; Lame's thick rings",
    edition: '2005 (example confirmed; its printed 2100 psi is 2083 worked out)',
    usedFor: 'Contact pressure and hoop stresses of solid and bored pins, elastic constants of steel',
  },
  {
    key: 'din 7190-1',
    citation:
      'DIN 7190-1, Interference fits, Part 1: Calculation and design rules for cylindrical self-locking pressfits',
    edition: '2017; coefficients confirmed',
    usedFor:
      'Friction of steel on steel: pressed dry 0.11 when it starts to slip, 0.08 slipping; shrink fits 0.12 to 0.20',
  },
  {
    key: 'timoshenko goodier',
    citation: 'S. Timoshenko and J. N. Goodier, Theory of Elasticity, articles 26 and 135',
    edition: '2nd, 1951; solution confirmed in an independent transcription',
    usedFor: 'Thick ring under pressure, and with a radial temperature difference',
  },
  {
    key: 'hill',
    citation:
      'R. Hill, The Mathematical Theory of Plasticity; E. A. de Souza Neto, D. Peric and D. R. J. Owen, Computational Methods for Plasticity, 7.5.1',
    edition: '1950; 2008',
    usedFor: 'Thick ring that yields under inner pressure: plastic radius and collapse',
  },
  {
    key: 'simo hughes',
    citation: 'J. C. Simo and T. J. R. Hughes, Computational Inelasticity, box 3.2',
    edition: '1998 (from memory; algorithm verified by the tests)',
    usedFor: 'Radial return and tangent of von Mises plasticity',
  },
  {
    key: 'column formulas',
    citation: "J. B. Johnson's parabola and Euler's column, as in handbooks of machine design",
    edition: "1893 and 1744; equations confirmed in several handbooks' copies",
    usedFor: 'Buckling of the bored pin and of the spacer stack',
  },
  {
    key: 'aws d1.1',
    citation:
      'American Welding Society, D1.1, Structural Welding Code - Steel, minimum fillet sizes (Table 7.7 in 2020) and allowable stress of fillets',
    edition: '2020; 1/8 in for plates up to 1/4 in confirmed, the rest from memory',
    usedFor:
      'Weld of guide and shield plates; no welding below 0 F, 70 F in the steel where it is below 32 F (as cited by others)',
  },
  {
    key: 'importance sampling',
    citation:
      "Bayes' rule, by self-normalised importance sampling; A. B. Owen, Monte Carlo Theory, Methods and Examples, chapter 9",
    edition: '2013 (from memory)',
    usedFor: 'Grip given that a push did not move the pin',
  },
] as const satisfies readonly Source[];
