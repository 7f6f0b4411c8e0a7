/** Version of the calculation: changes whenever a formula, a default or a register does. Year, month, day of that change. */
export const CALCULATION_VERSION = '2026.11.30';
