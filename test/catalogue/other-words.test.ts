import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../src/catalogue/catalogue.ts';
import { otherWords, wordsToFind } from '../../src/catalogue/other-words.ts';

const found = (question: string): readonly string[] =>
  CATALOGUE.filter((d) => {
    const text = `${d.name} ${d.summary} ${otherWords(d.name)}`.toLowerCase();
    return wordsToFind(question)
      .split(' ')
      .every((word) => text.includes(word));
  }).map((d) => d.name);

describe('other words of functions', () => {
  it.each([
    ['quote', 'BURN.JOB.COST'],
    ['price', 'BURN.JOB.COST'],
    ['gantt', 'BURN.JOB.SCHEDULE'],
    ['bottle', 'BURN.CYLINDER.COUNT'],
    ['how many cylinders', 'BURN.CYLINDER.COUNT'],
    ['How many bottles do I need?', 'BURN.CYLINDER.COUNT'],
    ['how many rods', 'BURN.PIN.RODS'],
    ['what to bring', 'BURN.JOB.STOCK'],
    ['packing', 'BURN.JOB.STOCK'],
    ['which rod', 'BURN.ROD.PICK'],
    ['ventilation', 'BURN.AIR.FRESH'],
    ['gloves', 'BURN.PPE.LIST'],
    ['jack', 'BURN.PUSH.RAM'],
    ['tornado', 'BURN.ASSUME.EFFECT'],
    ['bolts', 'BURN.STUD.RODS'],
    ['man hours', 'BURN.PIN.TIME'],
  ])('%s finds %s', (question, name) => {
    expect(found(question)).toContain(name);
  });

  it('stand with every function', () => {
    expect(CATALOGUE.filter((d) => otherWords(d.name) === '').map((d) => d.name)).toEqual([]);
  });

  it('narrow: no question above finds half of the functions', () => {
    for (const question of ['quote', 'gantt', 'bottle', 'gloves'])
      expect(found(question).length).toBeLessThan(CATALOGUE.length / 2);
  });
});
