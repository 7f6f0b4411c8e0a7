/** File of a function's page in the reference: `pin-oxygen.html` for `BURN.PIN.OXYGEN`. */
export const referencePage = (name: string): string =>
  `${name
    .replace(/^BURN\./, '')
    .toLowerCase()
    .replaceAll('.', '-')}.html`;
