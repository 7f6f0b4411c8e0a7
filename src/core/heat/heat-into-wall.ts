/** One run of the rod through the whole length. */
export interface BurnPass {
  /** Heat that enters the wall of the finished bore, per length of pin [J/m]. */
  readonly heat: number;
  /** Time from entering at the near end to coming out at the far end [s]. */
  readonly duration: number;
  /** Time before the next run starts [s]. */
  readonly pause: number;
}

export interface BurnedBore {
  /** Bore in the end, and the pilot pierced first [m]. */
  readonly hole: number;
  readonly pilot: number;
  /** Bore that was there before; none where left out [m]. */
  readonly existing?: number;
  /** Minutes of burning over the whole length, here in s. */
  readonly burnTime: number;
  /** Heat that enters the part for each kilogram removed [J/kg]. */
  readonly heatPerMass: number;
  /** Density of the pin [kg/m3]. */
  readonly density: number;
}

/**
 * Heat that burning out a bore leaves in the part, as a pilot pass and a widening pass.
 *
 * q' = heatPerMass rho pi / 4 (d_after^2 - d_before^2) for each pass; the burning time is shared by the metal removed.
 * A pilot as wide as the bore, or no wider than a bore that was there, gives one pass; a bore that is there already none.
 * hole, pilot [m], burnTime [s], heatPerMass [J/kg], density [kg/m3]; result heat [J/m], durations [s].
 * Source: bookkeeping; the heat per mass is an assumption that follows from the heat balance of burning.
 * @example heatIntoWall({ hole: 0.06, pilot: 0.02, burnTime: 900, heatPerMass: 8e5, density: 7850 })[0].duration // 100
 */
export function heatIntoWall({
  hole,
  pilot,
  existing = 0,
  burnTime,
  heatPerMass,
  density,
}: BurnedBore): readonly BurnPass[] {
  if (existing >= hole) return [];
  const narrow = Math.max(existing, Math.min(pilot, hole));
  const removed = hole * hole - existing * existing;
  const share = (narrow * narrow - existing * existing) / removed;
  const heat = (heatPerMass * density * Math.PI * removed) / 4;
  const pass = (part: number): BurnPass => ({ heat: heat * part, duration: burnTime * part, pause: 0 });
  return share === 0 || share === 1 ? [pass(1)] : [pass(share), pass(1 - share)];
}
