import { fuzzGroup } from './groups.ts';

fuzzGroup('supply, heat and fit');
