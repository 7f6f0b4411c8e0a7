/**
 * Commands of the sheet's user interface that a trial of functions does not need. Left are undo, redo, bold,
 * alignment, wrapping, number formats, and rows and columns to insert and delete.
 */
const HIDDEN = [
  'sheet.command.set-once-format-painter',
  'sheet.command.clear-selection-all',
  'sheet.command.set-range-font-family',
  'sheet.command.set-range-fontsize',
  'sheet.command.set-range-font-increase',
  'sheet.command.set-range-font-decrease',
  'sheet.command.set-range-italic',
  'sheet.command.set-range-underline',
  'sheet.command.set-range-stroke',
  'sheet.command.set-range-text-color',
  'sheet.command.set-border-basic',
  'sheet.command.set-vertical-text-align',
  'sheet.command.set-text-rotation',
  'sheet.command.add-worksheet-merge',
  'sheet.command.numfmt.set.currency',
  'sheet.command.add-range-protection-from-toolbar',
  'sheet.toolbar.text-to-number',
  'base-ui.operation.toggle-shortcut-panel',
  'formula-ui.operation.insert-function.financial',
  'formula-ui.operation.insert-function.logical',
  'formula-ui.operation.insert-function.text',
  'formula-ui.operation.insert-function.date',
  'formula-ui.operation.insert-function.lookup',
  'formula-ui.operation.insert-function.math',
  'formula-ui.operation.insert-function.statistical',
  'formula-ui.operation.insert-function.engineering',
  'formula-ui.operation.insert-function.information',
  'formula-ui.operation.insert-function.database',
  'sheet.contextMenu.permission',
  'sheet.command.add-range-protection-from-context-menu',
  'sheet.command.add-range-protection-from-sheet-bar',
  'sheet.command.view-sheet-permission-from-sheet-bar',
  'sheet.command.change-sheet-protection-from-sheet-bar',
] as const;

export const HIDDEN_MENUS: Readonly<Record<string, { readonly hidden: true }>> = Object.fromEntries(
  HIDDEN.map((command) => [command, { hidden: true }]),
);
