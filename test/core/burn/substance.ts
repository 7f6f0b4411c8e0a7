import { Assumptions } from '../../../src/core/assumptions/assumptions.ts';
import { heatBalanceSteps } from '../../../src/core/burn/heat-balance.ts';
import { findMaterial, materialSteps } from '../../../src/core/burn/materials.ts';
import { findRod } from '../../../src/core/burn/rods.ts';
import { readSteps } from '../model/read-steps.ts';

/** What a material is to the heat balance of a rod at a slag temperature [K] and a share of heat lost, as the steps have it. */
export function substance(name: string, T = 2100, lost = 0.06, rod = '3/8', a = Assumptions.defaults()) {
  const material = findMaterial(name);
  const steps = [...materialSteps(material), ...heatBalanceSteps(findRod(rod).rod, material)];
  const read = readSteps(steps, { T, f: lost }, a);
  return {
    density: read.number('rho'),
    heat: read.number('h_work'),
    burns: read.number('burns'),
    heatLost: read.number('f'),
    takes: read.number('h_takes'),
    removed: (): number => read.number('k'),
    fed: read.number('lambda'),
    burnt: read.number('B'),
    burntShare: (): number => read.number('share'),
  };
}
