/** The page that tells a person without a build how to add a release to each program, and how to take it away again. */
import type { ComponentChildren } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { CALCULATION_VERSION } from '../../core/version.ts';
import { RULES } from '../../pane/texts.ts';
import { OFFICE_ADDRESS } from '../bill-of-materials.ts';
import { changes } from '../changes.ts';
import { ANEW, FOREVER, serverSettings } from '../server-settings.ts';
import { AddressesDrawing, PartsDrawing, StepsDrawing } from './drawings.tsx';

/** Where the page stands and what it is about. */
export interface Installed {
  /** Address of the release, and of the folder that is installed. */
  readonly base: string;
  readonly place: string;
  readonly version: string;
  /** The way from the page to that folder: empty, or ending with `/`. */
  readonly folder: string;
  /** All versions at the address, the newest first; on the page at the address itself. */
  readonly versions?: readonly string[];
}

const POLICY = "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'";
const CATALOGUE = '\\\\your-server\\rodsheet';
const MAC_FOLDER = '~/Library/Containers/com.microsoft.Excel/Data/Documents/wef';

export function installPage(about: Installed): string {
  const { version, folder } = about;
  return `<!doctype html>\n${renderToString(
    <html lang="en" class="rs-colours">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width" />
        <meta http-equiv="Content-Security-Policy" content={POLICY} />
        <title>{`Install Rodsheet ${version}`}</title>
        <link rel="icon" href={`${folder}assets/icon-32.png`} />
        <link rel="stylesheet" href={`${folder}install/install.css`} />
      </head>
      <body>
        <header class="head">
          <span class="name">Rodsheet {version}</span>
          <nav aria-label="Parts of the release">
            <ul>
              <li>
                <a href={`${folder}trial/`}>Browser workbook</a>
              </li>
              <li>
                <a href={`${folder}reference/index.html`}>Reference</a>
              </li>
              <li>
                <a href={`${folder}rodsheet-template.xlsx`}>Template</a>
              </li>
            </ul>
          </nav>
        </header>
        <main id="content">
          <h1>Install Rodsheet</h1>
          <p class="lead">
            Functions that size oxygen, rods and time for exothermic-rod work, in your own job sheet. Choose the program
            that you use; nothing has to be built.
          </p>
          <ul class="choose">
            <Choice to="browser" name="In a browser" more="nothing to install; works without a network once opened" />
            <Choice to="windows" name="Excel on Windows" more="version 2021 or newer, or Microsoft 365" />
            <Choice to="mac" name="Excel on a Mac" more="Microsoft 365" />
            <Choice to="web" name="Excel on the web" more="in any newer browser" />
            <Choice to="libreoffice" name="LibreOffice Calc" more="7.4 or newer, with Node.js 18 or newer" />
          </ul>
          <Which {...about} />
          <Browser {...about} />
          <Windows {...about} />
          <Mac {...about} />
          <Web {...about} />
          <LibreOffice {...about} />
          <Asks />
          <Server {...about} />
          <Made {...about} />
          <Changes {...about} />
        </main>
        <footer class="foot">
          <p>{RULES}</p>
          <p class="fine">
            Version {version}, calculation {CALCULATION_VERSION}. <a href={`${folder}LICENSE`}>Licence</a>,{' '}
            <a href={`${folder}LICENCES.txt`}>licences of what is in it</a>.
          </p>
        </footer>
      </body>
    </html>,
  )}\n`;
}

const Choice = ({ to, name, more }: { readonly to: string; readonly name: string; readonly more: string }) => (
  <li>
    <a href={`#${to}`}>
      <b>{name}</b> {more}
    </a>
  </li>
);

const Picture = ({ caption, children }: { readonly caption: string; readonly children: ComponentChildren }) => (
  <figure class="picture">
    {children}
    <figcaption>{caption}</figcaption>
  </figure>
);

function Which({ base, place, version, versions }: Installed) {
  return (
    <>
      <h2 id="which">Which address</h2>
      <p>
        Excel fetches the add-in from an address in the manifest, each time it starts. What stands there decides the
        figures of every workbook that is calculated anew.
      </p>
      <Picture caption="The folder of a version is for jobs that are quoted; latest is for those who want every mend at once.">
        <AddressesDrawing version={version} />
      </Picture>
      <p>
        Both have the same identity: install one of them. To change, add the other manifest in its place and start Excel
        again. Saved figures stay as they are until they are calculated anew. Keep <code>=BURN.VERSION()</code> beside
        them: then the pane of a newer version says that the workbook is older, and lists what would move before
        anything does.
      </p>
      {versions && (
        <>
          <p>At this address:</p>
          <ul>
            <li>
              <a href="latest/index.html">latest</a>: {version} today (<code>{base}/latest/manifest.xml</code>)
            </li>
            {versions.map((each) => (
              <li key={each}>
                <a href={`v/${each}/index.html`}>{each}</a> (<code>{`${base}/v/${each}/manifest.xml`}</code>)
              </li>
            ))}
          </ul>
        </>
      )}
      {!versions && (
        <p>
          This page is about <code>{place}/</code>.
        </p>
      )}
    </>
  );
}

function Browser({ folder }: Installed) {
  return (
    <>
      <h2 id="browser">In a browser</h2>
      <ol class="steps">
        <li>
          Open the <a href={`${folder}trial/`}>browser workbook</a>. An example is there; <b>New</b> begins a job of
          your own.
        </li>
        <li>
          Wait until the line below the sheet says <b>works without a network</b>. From then on the address opens on
          site too, without a signal. The line says which version it is.
        </li>
        <li>
          <b>Save</b> writes a workbook for any spreadsheet program. Until then the work is kept in this browser alone.
        </li>
      </ol>
      <Picture caption="The browser workbook: the functions at work beside a pin list.">
        <img
          src={`${folder}install/browser-workbook.png`}
          width={1440}
          height={860}
          alt="A sheet with a list of pins and what each takes; beside it a pane with result, cautions and working of the selected cell"
        />
      </Picture>
      <h3>To remove it</h3>
      <p>
        Save your jobs to files first. Then, in the browser's settings, delete the data of this site: the kept jobs go
        with it.
      </p>
    </>
  );
}

function Windows({ folder, place }: Installed) {
  return (
    <>
      <h2 id="windows">Excel on Windows</h2>
      <p>
        For a company the way that Excel's vendor supports is the administrator's: in the Microsoft 365 admin centre,
        under Settings, Integrated apps, upload a custom app and give the manifest's address,{' '}
        <code>{place}/manifest.xml</code>. It then appears for those it is given to, on Windows, Mac and the web, within
        a day.
      </p>
      <p>For one machine, or to try it, a shared folder does:</p>
      <Picture caption="What goes where: only the manifest is given to Excel.">
        <PartsDrawing />
      </Picture>
      <ol class="steps">
        <li>
          Download{' '}
          <a href={`${folder}manifest.xml`} download>
            manifest.xml
          </a>{' '}
          into a folder, and share the folder (right click, Properties, Sharing). A folder of your own machine will do;
          note its network path, such as <code>{CATALOGUE}</code>.
        </li>
        <li>Tell Excel that it may take add-ins from there:</li>
      </ol>
      <Picture caption="Trusting the folder. Excel's words differ a little from edition to edition.">
        <StepsDrawing
          title="Trust the folder"
          steps={[
            { label: 'File > Options > Trust Center > Trust Center Settings' },
            { label: 'Trusted Add-in Catalogs' },
            { label: `Catalog Url: ${CATALOGUE}`, below: 'the network path of your folder; then Add catalog' },
            { label: 'Tick Show in Menu, then OK, OK', below: 'and start Excel again' },
          ]}
        />
      </Picture>
      <Picture caption="Adding it. Older editions have My Add-ins on the Insert tab.">
        <StepsDrawing
          title="Add the add-in"
          steps={[
            { label: 'Home > Add-ins > More add-ins (or Advanced)' },
            { label: 'SHARED FOLDER', below: 'at the top of the window' },
            { label: 'Rodsheet > Add', below: 'a button Rodsheet appears on the Home tab' },
            { label: 'Type =BURN. in a cell', below: 'the functions are listed' },
          ]}
        />
      </Picture>
      <h3>To remove it</h3>
      <p>
        Take the catalogue out under Trusted Add-in Catalogs, close Excel, and delete what is in{' '}
        <code>%LOCALAPPDATA%\Microsoft\Office\16.0\Wef</code>. An administrator removes it under Integrated apps. Saved
        workbooks keep their values; formulas of it show <code>#NAME?</code> when they are calculated anew.
      </p>
    </>
  );
}

function Mac({ folder }: Installed) {
  return (
    <>
      <h2 id="mac">Excel on a Mac</h2>
      <p>In a company, as on Windows: the administrator's way needs nothing on the machine. For one machine:</p>
      <Picture caption="Adding it on one Mac.">
        <StepsDrawing
          title="Add it on a Mac"
          steps={[
            { label: 'Download manifest.xml' },
            { label: 'Finder: Command+Shift+G', below: MAC_FOLDER },
            { label: 'Put manifest.xml there', below: 'make the folder wef if it is not there; start Excel again' },
            { label: 'Insert, or Home > Add-ins: the small arrow', below: 'Rodsheet stands under Developer Add-ins' },
          ]}
        />
      </Picture>
      <p>
        The file:{' '}
        <a href={`${folder}manifest.xml`} download>
          manifest.xml
        </a>
        . The folder: <code>{MAC_FOLDER}</code>
      </p>
      <h3>To remove it</h3>
      <p>
        Delete the file from that folder and start Excel again. On macOS printing and downloads from the pane do
        nothing, since the host refuses them there; the job sheet can be put on a sheet instead.
      </p>
    </>
  );
}

function Web({ folder }: Installed) {
  return (
    <>
      <h2 id="web">Excel on the web</h2>
      <Picture caption="Adding it in a browser. It stays in that browser until its data is cleared.">
        <StepsDrawing
          title="Add it on the web"
          steps={[
            { label: 'Open a workbook, then Home > Add-ins > More add-ins', below: 'older: Insert > Office Add-ins' },
            { label: 'MY ADD-INS > Manage My Add-ins > Upload My Add-in' },
            { label: 'Browse: manifest.xml, then Upload' },
            { label: 'Type =BURN. in a cell' },
          ]}
        />
      </Picture>
      <p>
        The file:{' '}
        <a href={`${folder}manifest.xml`} download>
          manifest.xml
        </a>
        . If the pane shows and the functions are <code>#NAME?</code>, the web server does not send what is{' '}
        <a href="#server">said below</a>.
      </p>
      <h3>To remove it</h3>
      <p>Clear the browser's data for the site of Excel, or remove it under Manage My Add-ins.</p>
    </>
  );
}

function LibreOffice({ folder }: Installed) {
  return (
    <>
      <h2 id="libreoffice">LibreOffice Calc</h2>
      <Picture caption="Adding it in LibreOffice.">
        <StepsDrawing
          title="Add it in LibreOffice"
          steps={[
            {
              label: 'Install Node.js, 18 or newer',
              below: 'from nodejs.org, or your system; on Debian also python3-uno',
            },
            { label: 'Download rodsheet.oxt' },
            { label: 'Tools > Extensions (older: Extension Manager) > Add' },
            { label: 'Start LibreOffice again, type =BURN. in a cell', below: 'the menu Rodsheet has the pane' },
          ]}
        />
      </Picture>
      <p>
        The file:{' '}
        <a href={`${folder}rodsheet.oxt`} download>
          rodsheet.oxt
        </a>
        . It stays the version that it is until you install another, and needs no network.
      </p>
      <Picture caption="A cell that failed, and the status bar that says why.">
        <img
          src={`${folder}install/libreoffice.png`}
          width={1280}
          height={800}
          alt="LibreOffice Calc with a sheet of pins; the status bar says why the selected cell failed"
        />
      </Picture>
      <h3>To remove it</h3>
      <p>Tools &gt; Extensions, choose Rodsheet, Remove, and start LibreOffice again.</p>
    </>
  );
}

function Asks() {
  return (
    <>
      <h2 id="asks">What it asks for</h2>
      <div class="scroll">
        <table class="plain">
          <thead>
            <tr>
              <th scope="col">where</th>
              <th scope="col">what</th>
              <th scope="col">why</th>
            </tr>
          </thead>
          <tbody>
            <tr>
              <th scope="row">Excel</th>
              <td>to read and change the workbook (ReadWriteDocument)</td>
              <td>
                the pane reads the selected formula and the cells in it, which Excel allows with this permission only;
                it writes only what you ask for
              </td>
            </tr>
            <tr>
              <th scope="row">Excel</th>
              <td>
                a network: this web server, and <code>{OFFICE_ADDRESS}</code>
              </td>
              <td>Excel's vendor supplies its script library from that address only</td>
            </tr>
            <tr>
              <th scope="row">browser</th>
              <td>storage of this site</td>
              <td>your unsaved jobs, and the version's files for use without a network</td>
            </tr>
            <tr>
              <th scope="row">LibreOffice</th>
              <td>to run Node.js, and a page on this machine's own address (127.0.0.1)</td>
              <td>the calculation, and the pane</td>
            </tr>
          </tbody>
        </table>
      </div>
      <p>Nothing of a workbook is sent anywhere. No account, no telephone number, no counting of users.</p>
    </>
  );
}

function Server({ base }: Installed) {
  const settings = Object.entries(serverSettings(base));
  return (
    <>
      <h2 id="server">For the one who runs the web server</h2>
      <p>Any server of plain files will do, with:</p>
      <ul>
        <li>
          <b>https</b> at <code>{base}</code>, the address in the manifests.
        </li>
        <li>
          <b>CORS</b>: <code>Access-Control-Allow-Origin: *</code>, at least on functions.json and the icons, and no{' '}
          <code>Cross-Origin-Resource-Policy</code> but <code>cross-origin</code>. Excel on the web fetches them from
          pages of its own; without it the functions are missing there, and nowhere else.
        </li>
        <li>
          <b>Caching</b>: <code>Cache-Control: {FOREVER}</code> below <code>v/</code>, <code>{ANEW}</code> for the rest.
        </li>
        <li>
          No <code>X-Frame-Options</code>: Excel on the web shows the pane in a frame.
        </li>
      </ul>
      {settings.map(([name, text]) => (
        <details key={name}>
          <summary>{name}</summary>
          <pre>{text}</pre>
        </details>
      ))}
      <p>
        After an update of <code>latest</code> each user closes all workbooks and starts Excel again: one that is
        running keeps the scripts it has.
      </p>
    </>
  );
}

function Made({ folder, version }: Installed) {
  return (
    <>
      <h2 id="how-it-was-made">How it was made, and how to check it</h2>
      <p>
        By <code>npm run release</code> from the sources. Made again from the same sources, with the same packages and
        the same Node, it has the same bytes.
      </p>
      <ul>
        <li>
          <a href={`${folder}SHA256SUMS`}>SHA256SUMS</a>: SHA-256 of every file. In the folder of the version:{' '}
          <code>sha256sum --check SHA256SUMS</code>
        </li>
        <li>
          <a href={`${folder}bom.cdx.json`}>bom.cdx.json</a>: the packages of others in it, with versions and licences
          (CycloneDX 1.6).
        </li>
        <li>
          <a href={`${folder}provenance.intoto.json`}>provenance.intoto.json</a>: digests of the sources it was made
          from (in-toto Statement v1, SLSA Provenance v1). It is not signed: it proves nothing to one who does not make{' '}
          {version} again.
        </li>
      </ul>
    </>
  );
}

function Changes({ folder }: Installed) {
  return (
    <>
      <h2 id="changes">What changed</h2>
      {changes().map(({ version, changes: list }) => (
        <section key={version}>
          <h3>{version}</h3>
          <ul>
            {list.map((change) => (
              <li key={change}>{change}</li>
            ))}
          </ul>
        </section>
      ))}
      <p>
        The same as a file: <a href={`${folder}CHANGES.txt`}>CHANGES.txt</a>.
      </p>
    </>
  );
}
