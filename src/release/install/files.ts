/** Pictures of the install page: how each is called there, and where it lies in the sources. All are our own screenshots. */
export const PICTURES: Readonly<Record<string, string>> = {
  'browser-workbook.png': 'assets/screenshot.png',
  'libreoffice.png': 'assets/libreoffice.png',
};

/** What the page's style is put together from. */
export const STYLES: readonly string[] = [
  'src/pane/colours.css',
  'src/reference/reference.css',
  'src/release/install/install.css',
];
