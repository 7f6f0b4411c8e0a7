import { entered, type Step } from '../core/model/step.ts';

/** A word or a sentence of the working. */
export const textStep = (name: string, symbol: string, value: string, words = 'given', source = ''): Step =>
  entered(symbol, name, 'count', value, words, source === '' ? 'input' : 'published', source);
