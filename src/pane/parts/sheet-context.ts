import { createContext } from 'preact';
import type { SheetPort } from '../port.ts';

/** The sheet that the pane belongs to, for a part of it that puts something there. */
export const SheetContext = createContext<SheetPort | undefined>(undefined);
