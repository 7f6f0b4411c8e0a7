import type { Source } from './source.ts';

/**
 * What the exposure, power and caution functions rest on. "Confirmed" in an edition means that the figure was read
 * in a copy of the text; "from memory" that it was not, and must be looked up before anyone leans on it.
 */
export const EXPOSURE_SOURCES = [
  // Noise
  {
    key: 'osha 1910.95',
    citation:
      'US Occupational Safety and Health Administration, 29 CFR 1910.95, Occupational noise exposure, Table G-16 and Appendix A',
    edition: "as in force 2024; Appendix A (Table G-16a, dose and average) confirmed in the agency's copy",
    usedFor:
      'Hours allowed at a level, dose and average with 5 dB exchange, the 85 dBA action level, levels from 80 dBA counted',
  },
  {
    key: 'osha cold stress',
    citation:
      'US Occupational Safety and Health Administration, Winter weather: cold stress; no standard of its own, the general duty clause applies',
    edition: 'as cited by others, 2026',
    usedFor: 'Caution of cold stress',
  },
  {
    key: 'michigan r 408.40723',
    citation:
      'Michigan Occupational Safety and Health Administration, Construction safety standard, R 408.40723, Cylinders generally',
    edition: 'read as a web copy, 2026',
    usedFor: 'Thawing frozen valves and cylinders',
  },
  {
    key: 'niosh 98-126',
    citation:
      'US National Institute for Occupational Safety and Health, Criteria for a Recommended Standard: Occupational Noise Exposure, DHHS (NIOSH) Publication 98-126',
    edition:
      '1998; limit and 3 dB exchange confirmed, double protection above 100 dBA and the 140 dBA ceiling from memory',
    usedFor:
      'Hours, dose and average with 3 dB exchange at 85 dBA, and the level above which plugs and muffs are worn together',
  },
  {
    key: 'eu 2003/10/ec',
    citation:
      'Directive 2003/10/EC of the European Parliament and of the Council on exposure of workers to noise, Article 3',
    edition: '2003, consolidated 2019; values confirmed',
    usedFor: 'Daily exposure level, action values 80 and 85 dBA, limit value 87 dBA at the ear',
  },
  {
    key: 'msha 62',
    citation:
      'US Mine Safety and Health Administration, 30 CFR Part 62, Occupational noise exposure, sections 62.101 and 62.140',
    edition: 'as in force 2024; the duty in 62.140 confirmed, the level of 105 dBA in 62.101 from memory',
    usedFor: 'Dual hearing protection level in mines',
  },
  // Air
  {
    key: 'osha 1910.146',
    citation: 'US OSHA, 29 CFR 1910.146, Permit-required confined spaces, paragraph (b)',
    edition: 'as in force 2024; the definition of a hazardous atmosphere confirmed',
    usedFor: 'Oxygen below 19.5 or above 23.5 percent as a hazardous atmosphere, and entry to confined spaces',
  },
  {
    key: 'osha 1910.1000',
    citation: 'US OSHA, 29 CFR 1910.1000, Air contaminants, Table Z-1',
    edition: 'as in force 2024; both limits confirmed',
    usedFor: 'Iron oxide fume 10 mg/m3 over 8 hours, manganese fume ceiling 5 mg/m3',
  },
  {
    key: 'niosh pocket guide',
    citation: 'US NIOSH, Pocket Guide to Chemical Hazards, DHHS (NIOSH) Publication 2005-149',
    edition: '2007 printing; manganese values confirmed, iron oxide 5 mg/m3 as Fe from memory',
    usedFor: 'Recommended limits of manganese (1 and 3 mg/m3) and of iron oxide as iron',
  },
  {
    key: 'iupac atomic weights',
    citation: 'IUPAC, Standard atomic weights, abridged values (Fe 55.845, O 15.999)',
    edition: '2021',
    usedFor: 'Share of iron in Fe2O3',
  },
  {
    key: 'us standard atmosphere',
    citation: 'NOAA, NASA and US Air Force, U.S. Standard Atmosphere, 1976, Table 3',
    edition: '1976 (20.9476 percent of dry air, from memory)',
    usedFor: 'Oxygen in fresh air, and density and viscosity of air about a falling drop',
  },
  {
    key: 'acgih ventilation',
    citation:
      'American Conference of Governmental Industrial Hygienists, Industrial Ventilation, chapter on dilution ventilation',
    edition: 'from memory, not verified',
    usedFor: 'Mixing factor of 1 to 10 by which fresh air falls short of a well-mixed room',
  },
  {
    key: 'ap-42 12.19',
    citation: 'US Environmental Protection Agency, AP-42, Section 12.19, Electric Arc Welding',
    edition: '1995 (values from memory, not verified)',
    usedFor:
      'Only to bracket the range of fume from consumed metal (arc electrodes, 5 to 80 g/kg); no factor was found for exothermic rods',
  },
  {
    key: 'osha 1910.1024',
    citation: 'US OSHA, 29 CFR 1910.1024, Beryllium',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Pointed to by the caution on beryllium copper',
  },
  {
    key: 'osha 1910.1025',
    citation: 'US OSHA, 29 CFR 1910.1025, Lead',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Pointed to by the caution on lead coatings',
  },
  {
    key: 'osha 1910.1026',
    citation: 'US OSHA, 29 CFR 1910.1026, Chromium (VI)',
    edition: 'as in force 2024; that it covers cutting confirmed',
    usedFor: 'Pointed to by the caution on stainless steel and chromium plate',
  },
  {
    key: 'osha 1910.1027',
    citation: 'US OSHA, 29 CFR 1910.1027, Cadmium',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Pointed to by the caution on cadmium',
  },
  {
    key: 'osha 1926.1153',
    citation: 'US OSHA, 29 CFR 1926.1153, Respirable crystalline silica',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Pointed to by the caution on dust of concrete and rock',
  },
  // Hot work and fire
  {
    key: 'osha 1910.252',
    citation: 'US OSHA, 29 CFR 1910.252, Welding, cutting and brazing: general requirements',
    edition:
      'as in force 2024; half-hour watch, 35 ft, 10,000 cu ft, 16 ft and 2000 cfm, and the order of paragraph (c)(4) to (c)(12) confirmed, other paragraph numbers from memory',
    usedFor:
      'Fire watch, 35 ft, hollow parts, confined spaces, ventilation for each person, zinc, lead, beryllium, cadmium, protective clothing',
  },
  {
    key: 'nfpa 51b 2009',
    citation:
      'National Fire Protection Association, NFPA 51B, Standard for Fire Prevention During Welding, Cutting, and Other Hot Work',
    edition: '2009 (half an hour, from memory)',
    usedFor: 'Fire watch of half an hour',
  },
  {
    key: 'nfpa 51b 2014',
    citation:
      'National Fire Protection Association, NFPA 51B, Standard for Fire Prevention During Welding, Cutting, and Other Hot Work',
    edition: '2014; half an hour confirmed in a published comparison of editions',
    usedFor: 'Fire watch of half an hour',
  },
  {
    key: 'nfpa 51b 2019',
    citation:
      'National Fire Protection Association, NFPA 51B, Standard for Fire Prevention During Welding, Cutting, and Other Hot Work',
    edition: '2019; one hour, and 5.6.3 for up to three hours more, confirmed in a published comparison of editions',
    usedFor: 'Fire watch of one hour, and fire monitoring of up to three hours more',
  },
  {
    key: 'osha 1926.352',
    citation: 'US OSHA, 29 CFR 1926.352, Fire prevention (construction)',
    edition: 'as in force 2024 (paragraphs from memory)',
    usedFor: 'Drums, containers and hollow structures in construction',
  },
  {
    key: 'osha 1926.354',
    citation: 'US OSHA, 29 CFR 1926.354, Welding, cutting, and heating in way of preservative coatings',
    edition: 'as in force 2024; test, strip and 4 in confirmed',
    usedFor: 'Coatings of unknown kind',
  },
  {
    key: 'schiller naumann',
    citation:
      'L. Schiller and A. Naumann, A drag coefficient correlation, Zeitschrift des Vereins Deutscher Ingenieure 77 (1933) 318-320',
    edition: '1933; the citation confirmed, the equation as in the usual textbooks',
    usedFor: 'Drag of a falling drop, taken as a hard sphere',
  },
  {
    key: 'nfpa 53',
    citation:
      'National Fire Protection Association, NFPA 53, Recommended Practice on Materials, Equipment, and Systems Used in Oxygen-Enriched Atmospheres',
    edition: 'from memory, not verified',
    usedFor: 'That clothing and hair burn fiercely in enriched air and valves must be opened slowly',
  },
  // Cylinders
  {
    key: 'osha 1910.253',
    citation: 'US OSHA, 29 CFR 1910.253, Oxygen-fuel gas welding and cutting',
    edition:
      'as in force 2024; 20 ft, 5 ft barrier, 6000 cu ft and 50 ft confirmed, sub-paragraph numbers of (b)(5) from memory',
    usedFor: 'Separation of cylinders, manifold limits, securing, caps, slow opening, oil and grease',
  },
  {
    key: 'osha 1910.104',
    citation: 'US OSHA, 29 CFR 1910.104, Oxygen (bulk oxygen systems)',
    edition: 'as in force 2024; 13,000 and 25,000 cu ft confirmed',
    usedFor: 'Amount above which the rules for bulk oxygen apply',
  },
  // People and machines
  {
    key: 'osha 1910.133',
    citation: 'US OSHA, 29 CFR 1910.133, Eye and face protection, paragraph (a)(5)',
    edition: 'as in force 2024; the table confirmed',
    usedFor: 'Least filter shade by thickness cut',
  },
  {
    key: 'osha 1910.134',
    citation: 'US OSHA, 29 CFR 1910.134, Respiratory protection',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Respirators',
  },
  {
    key: 'osha 1910.135',
    citation: 'US OSHA, 29 CFR 1910.135, Head protection',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Hard hat',
  },
  {
    key: 'osha 1910.136',
    citation: 'US OSHA, 29 CFR 1910.136, Foot protection',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Boots',
  },
  {
    key: 'osha 1910.28',
    citation: 'US OSHA, 29 CFR 1910.28, Duty to have fall protection',
    edition: 'as in force 2024 (4 ft, from memory)',
    usedFor: 'Height from which fall protection is due',
  },
  {
    key: 'osha 1910.147',
    citation: 'US OSHA, 29 CFR 1910.147, The control of hazardous energy (lockout/tagout)',
    edition: 'as in force 2024 (paragraphs from memory)',
    usedFor: 'Stored springs and loads, pressure, live machines',
  },
  {
    key: 'osha 1910.177',
    citation: 'US OSHA, 29 CFR 1910.177, Servicing multi-piece and single piece rim wheels',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'No heat near a wheel with a tyre on it',
  },
  {
    key: 'osha 1910.254',
    citation: 'US OSHA, 29 CFR 1910.254, Arc welding and cutting',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Electric shock, leads and ground return',
  },
  {
    key: 'osha 1910.410',
    citation: 'US OSHA, 29 CFR 1910 Subpart T, Commercial diving operations',
    edition: 'as in force 2024 (from memory)',
    usedFor: 'Diving is for qualified teams',
  },
  {
    key: 'ansi z49.1',
    citation: 'American National Standard ANSI Z49.1, Safety in Welding, Cutting, and Allied Processes',
    edition: '2012 (from memory, not verified)',
    usedFor: 'Protective clothing, warning of hot metal, shock in wet places',
  },
  // Power
  {
    key: 'astm b258',
    citation:
      'ASTM B258, Standard Specification for Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes of Solid Round Wires Used as Electrical Conductors',
    edition: '2018 (formula confirmed against printed diameters)',
    usedFor: 'Diameter of a gauge size',
  },
  {
    key: 'nbs handbook 100',
    citation: 'US National Bureau of Standards, Copper Wire Tables, Handbook 100',
    edition: '1966; resistivity confirmed, tables of ohms from memory',
    usedFor: 'Resistivity of annealed copper (IACS) and its change with temperature',
  },
  {
    key: 'peukert 1897',
    citation:
      'W. Peukert, Ueber die Abhaengigkeit der Kapacitaet von der Entladestromstaerke bei Bleiakkumulatoren, Elektrotechnische Zeitschrift 20 (1897) 20-21',
    edition: '1897; law and exponents of 1.1 to 1.3 from secondary texts',
    usedFor: 'Charge a lead-acid battery gives at a high current',
  },
] as const satisfies readonly Source[];
