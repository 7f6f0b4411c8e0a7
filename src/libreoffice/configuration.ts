/** What the extension adds to the program's configuration, and what it says of itself: XML written from the services. */
import type { Method, Parameter, Service } from './service.ts';

export const IDENTIFIER = 'org.rodsheet.burn';
/** The component that the menu, the start of the program and opened documents call. */
export const JOB = 'org.rodsheet.Job';
/** The first version that this was tried with. */
const OLDEST_PROGRAM = '7.4';

const DECLARATION = '<?xml version="1.0" encoding="UTF-8"?>\n';

function text(value: string): string {
  return value.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
}

const node = (name: string, inside: string): string =>
  `<node oor:name="${text(name)}" oor:op="replace">${inside}</node>\n`;
/** A text for readers. The program falls back on this language where it has none in the user's own. */
const shown = (name: string, value: string): string =>
  `<prop oor:name="${name}"><value xml:lang="en-US">${text(value)}</value></prop>`;
const set = (name: string, value: string): string =>
  `<prop oor:name="${name}" oor:type="xs:string"><value>${text(value)}</value></prop>`;

function component(name: string, place: string, inside: string): string {
  return `${DECLARATION}<oor:component-data xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" oor:name="${name}" oor:package="${place}">
${inside}</oor:component-data>
`;
}

/** Names and help of all functions, for autocomplete and the function wizard. */
export function functionsXcu(services: readonly Service[]): string {
  const inside = services.map((s) =>
    node(s.name, `<node oor:name="AddInFunctions">\n${s.methods.map(method).join('')}</node>`),
  );
  return component('CalcAddIns', 'org.openoffice.Office', `<node oor:name="AddInInfo">\n${inside.join('')}</node>\n`);
}

function method({ id, name, summary, parameters }: Method): string {
  return node(
    id,
    [
      shown('DisplayName', name),
      shown('Description', summary),
      // 7.4 knows its own categories only, and takes any other name for Add-In.
      '<prop oor:name="Category"><value>Rodsheet</value></prop>',
      shown('CategoryDisplayName', 'Rodsheet'),
      shown('CompatibilityName', name),
      `<node oor:name="Parameters">${parameters.map(parameter).join('')}</node>`,
    ].join(''),
  );
}

/** The program takes every argument for one that may be left out, so the words say which may. */
function parameter({ id, name, summary, optional }: Parameter): string {
  return node(
    id,
    shown('DisplayName', name) + shown('Description', optional ? `${summary} (may be left out)` : summary),
  );
}

const CALC = 'com.sun.star.sheet.SpreadsheetDocument';

/** The menu Rodsheet, in Calc only. */
export function menuXcu(): string {
  const entry = (name: string, title: string, what: string): string =>
    node(
      name,
      shown('Title', title) + set('URL', `service:${JOB}?${what}`) + set('Target', '_self') + set('Context', CALC),
    );
  const menu = node(
    `${IDENTIFIER}.menu`,
    `${shown('Title', 'Rodsheet')}${set('Context', CALC)}<node oor:name="Submenu">
${entry('m1', 'Pane', 'pane')}${entry('m2', 'About', 'about')}</node>`,
  );
  return component(
    'Addons',
    'org.openoffice.Office',
    `<node oor:name="AddonUI"><node oor:name="OfficeMenuBar">\n${menu}</node></node>\n`,
  );
}

/** The job is called when a window of a document has been made: the document is loaded by then. */
export function jobsXcu(): string {
  return component(
    'Jobs',
    'org.openoffice.Office',
    `<node oor:name="Jobs">${node(JOB, set('Service', JOB))}</node>
<node oor:name="Events"><node oor:name="OnViewCreated" oor:op="fuse"><node oor:name="JobList">${node(JOB, '')}</node></node></node>
`,
  );
}

export function manifest(library: string, parts: readonly string[], code: string): string {
  const entry = (type: string, path: string): string =>
    `<manifest:file-entry manifest:media-type="application/vnd.sun.star.${type}" manifest:full-path="${path}"/>\n`;
  return `${DECLARATION}<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">
${entry('uno-typelibrary;type=RDB', library)}${entry('uno-component;type=Python', code)}${parts.map((p) => entry('configuration-data', p)).join('')}</manifest:manifest>
`;
}

export function description(version: string): string {
  return `${DECLARATION}<description xmlns="http://openoffice.org/extensions/description/2006" xmlns:lo="http://libreoffice.org/extensions/description/2011" xmlns:d="http://openoffice.org/extensions/description/2006" xmlns:xlink="http://www.w3.org/1999/xlink">
<identifier value="${IDENTIFIER}"/>
<version value="${version}"/>
<display-name><name lang="en">Rodsheet</name></display-name>
<icon><default xlink:href="icon.png"/></icon>
<extension-description><src lang="en" xlink:href="description.txt"/></extension-description>
<dependencies><lo:LibreOffice-minimal-version value="${OLDEST_PROGRAM}" d:name="LibreOffice ${OLDEST_PROGRAM}"/></dependencies>
</description>
`;
}
