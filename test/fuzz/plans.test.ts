import { fuzzGroup } from './groups.ts';

fuzzGroup('plans');
