/** Entry of dist/functions.js, and the only file that associates: an id associated twice is a fault in the host. */
import { hostFunctions } from '../sheet/host-functions.ts';
import { associate } from './associate.ts';

associate(hostFunctions);
