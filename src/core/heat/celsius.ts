/** 0 C in kelvin, exact by the definition of the Celsius scale (SI Brochure, 9th edition, 2.3.1). */
export const ZERO_CELSIUS = 273.15;
