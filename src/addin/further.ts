/** Entry of dist/functions-further.js: leaves the further functions where functions.js looks for them. */
import { FURTHER_FUNCTIONS } from '../catalogue/further-functions.ts';
import { hostFunction } from '../sheet/as-host-function.ts';
import type { FurtherGlobal } from './load-further.ts';

(globalThis as FurtherGlobal).rodsheetFurther = FURTHER_FUNCTIONS.map((d) => hostFunction(d));
