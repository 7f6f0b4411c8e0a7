/** The script of the index page. */
import { filterFunctions } from './filter.ts';

filterFunctions(document);
