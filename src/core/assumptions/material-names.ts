/** The materials of the register, in the order of the listing. */
export const MATERIAL_NAMES = [
  'carbon steel',
  'hardened pin steel',
  'manganese steel',
  'stainless steel',
  'cast iron',
  'copper alloy',
  'aluminium alloy',
  'concrete',
  'reinforced concrete',
  'rock',
] as const;

export type MaterialName = (typeof MATERIAL_NAMES)[number];
