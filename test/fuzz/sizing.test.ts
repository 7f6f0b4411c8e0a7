import { fuzzGroup } from './groups.ts';

fuzzGroup('sizing');
