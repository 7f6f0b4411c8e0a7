/**
 * Builds dist/: the add-in (functions.js, the pane's script, functions.json, pane.html, pane.css, reference/, manifest.xml,
 * assets), the trial workbook (trial/) and LICENCES.txt for the packages of others in them. Switches, each as `--env name=value`:
 *   base    address the add-in is served from, written into the manifest and functions.json
 *   office  `vendor` (default) lets the pane load office.js from the host vendor's address, the supported source;
 *           `package` copies it unmodified out of node_modules, for work without a network
 *   only    `addin` leaves the trial workbook out
 *   cards   lets results carry their working on a card where the assumption `show working` is `card` and the host has cards;
 *           off by default, since functions.json then asks for rich values, which hosts before 2022 do not know
 *   libreoffice   any value leaves the extension for LibreOffice Calc, rodsheet.oxt, beside the rest
 *   release   name of the release that is built, which the trial workbook shows and keeps for use without a network
 *   https   serve with the developer certificate, as the spreadsheet host asks
 */
import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import CopyPlugin from 'copy-webpack-plugin';
import { EsbuildPlugin } from 'esbuild-loader';
import webpack from 'webpack';
import { referenceFiles } from './src/reference/render.mjs';
import { builtModule } from './src/addin/built-module.mjs';
import { Notices } from './src/addin/notices.mjs';
import { LibreOfficeExtension } from './src/libreoffice/package.mjs';
import { OneScript } from './src/addin/one-script.mjs';
import { Smaller } from './src/addin/smaller.mjs';
import { OldestEngine } from './src/addin/oldest-engine.mjs';

const ROOT = import.meta.dirname;
const FUNCTIONS = path.join(ROOT, 'src/addin/functions.ts');
const PORT = 3000;
const LOCAL = `https://localhost:${PORT}`;
const OFFICE_DIST = path.join(ROOT, 'node_modules/@microsoft/office-js/dist');
const OFFICE_JS = { vendor: 'https://appsforoffice.microsoft.com/lib/1/hosted/office.js', package: 'office/office.js' };
const TARGET = 'es2022';
/** The functions, the pane that they fetch once it is shown, what that fetches once a job is begun or a workbook looked through, and what
 *  long lists are worked out with. */
const ADDIN_SCRIPT = /^(functions|(pane|job|check|lists)\.\w+)\.js$/;
const FETCHED_LATER = ['pane', 'job', 'check', 'lists'];
/** The host in a browser fetches functions.json and the icons from pages of its own. */
const WORDS_APART = './src/addin/words-apart.mjs';
const FOR_THE_HOST = { 'Access-Control-Allow-Origin': '*', 'Cross-Origin-Resource-Policy': 'cross-origin' };

export default async (env = {}) => {
  const base = address(env.base ?? LOCAL);
  const cards = Boolean(env.cards);
  const office = env.office ?? 'vendor';
  if (!(office in OFFICE_JS)) throw new Error(`office is "${office}"; must be vendor or package`);
  const trial = env.only !== 'addin';

  return {
    mode: 'production',
    target: ['web', TARGET],
    context: ROOT,
    entry: {
      // What it fetches later stands beside its page: it cannot ask a document where it came from.
      functions: { import: [FUNCTIONS, './src/pane/pane.css'], publicPath: '', layer: 'addin' },
      ...(trial
        ? {
            'trial/early-keys': './src/trial/early-keys.ts',
            'trial/trial': ['./src/trial/trial.tsx', './src/trial/trial.css'],
          }
        : {}),
    },
    output: {
      path: path.join(ROOT, 'dist'),
      filename: '[name].js',
      // The minifier puts the function around the script instead: inside of one it would leave unused functions in.
      iife: false,
      cssFilename: ({ chunk }) => (chunk.name === 'functions' ? 'pane.css' : '[name].css'),
      // By its content, since functions.js of an older day may ask for it: one that is gone is told, a wrong one would fail.
      chunkFilename: ({ chunk }) =>
        FETCHED_LATER.includes(chunk.name) ? `${chunk.name}.[contenthash:8].js` : 'trial/parts/[name].js',
      globalObject: 'globalThis', // functions.js loads where there is no window
      clean: true,
    },
    devtool: false,
    experiments: { css: true, layers: true },
    module: {
      rules: [
        // After what takes the types out, which stands below.
        { test: /\/src\/(catalogue|core\/operations)\/.*\.ts$/, issuerLayer: 'addin', loader: WORDS_APART },
        { test: /\/written-words\.ts$/, loader: WORDS_APART, options: { all: true } },
        {
          test: /\.tsx?$/,
          loader: 'esbuild-loader',
          options: { target: TARGET, jsx: 'automatic', jsxImportSource: 'preact' },
        },
        { test: FUNCTIONS, loader: './src/addin/one-script.mjs' },
        // What only a later script asks of these goes into that script, or nowhere: loading them does nothing.
        { test: /\/src\/(core|catalogue|sheet)\//, exclude: /host-functions/, sideEffects: false },
      ],
    },
    optimization: {
      minimizer: [new EsbuildPlugin({ target: TARGET, css: true, format: 'iife', treeShaking: true })],
      splitChunks: false,
      // In the order in which they are used, and under short names: what is alike stands close together, which packs better.
      moduleIds: 'natural',
      mangleExports: 'size',
    },
    performance: { hints: false },
    stats: 'errors-warnings',
    infrastructureLogging: { level: 'warn' },
    plugins: [
      new CatalogueFiles(base, cards),
      new Notices(),
      new OneScript(FUNCTIONS, 'addin'),
      new Smaller(ADDIN_SCRIPT),
      new OldestEngine(ADDIN_SCRIPT),
      new webpack.DefinePlugin({ CARDS: JSON.stringify(cards), RELEASE: JSON.stringify(env.release ?? '') }),
      new CopyPlugin({ patterns: copies(base, office, trial) }),
      ...(env.WEBPACK_SERVE ? [] : [new ReferenceFiles()]),
      ...(env.libreoffice ? [new LibreOfficeExtension()] : []),
    ],
    ...(env.WEBPACK_SERVE ? { devServer: await server(env, trial) } : {}),
  };
};

/** Nothing is injected into the pages, so that a strict Content-Security-Policy holds; reload by hand after a change. */
async function server(env, trial) {
  const port = await freePort(env.https);
  return {
    host: 'localhost',
    port,
    hot: false,
    liveReload: false,
    client: false,
    static: false,
    setupMiddlewares: (middlewares) => {
      // Behind the checks of Host and Origin, which stand first: a page of another name must not read this machine's server.
      const checks = middlewares.filter(({ name }) => name.endsWith('-header-check'));
      const others = middlewares.filter(({ name }) => !name.endsWith('-header-check'));
      return [...checks, { name: 'reference', path: '/reference', middleware: serveReference }, ...others];
    },
    ...(env.https ? { server: { type: 'https', options: await certificate() }, headers: FOR_THE_HOST } : {}),
    onListening({ compiler, server }) {
      const page = `${env.https ? 'https' : 'http'}://localhost:${server.address().port}/${trial ? 'trial/' : 'pane.html'}`;
      if (port !== PORT && server.address().port === port)
        console.log(`Port ${PORT} is taken by another program; this one took ${port}.`);
      let said = false;
      compiler.hooks.done.tap('address', (stats) => {
        if (said || stats.hasErrors()) return;
        said = true;
        console.log(`${trial ? 'Trial workbook' : 'Add-in'}: ${page}`);
        // Ready by the time somebody asks for a page; what is wrong is said then.
        referenceFiles({ behind: true }).catch(() => undefined);
      });
    },
  };
}

/** The port to serve at, or the next that is free; the desktop host knows the first only, by the manifest. */
async function freePort(https) {
  process.env.WEBPACK_DEV_SERVER_BASE_PORT ??= String(PORT);
  const { default: Server } = await import('webpack-dev-server');
  const free = await Server.getFreePort('auto', 'localhost');
  if (https && free !== PORT)
    throw new Error(`Port ${PORT} is taken by another program, and the manifest names it: end that program first.`);
  return free;
}

/** Key, certificate and authority of the vendor's developer certificate; serves with it even where it is not trusted yet. */
async function certificate() {
  const { getHttpsServerOptions } = await import('office-addin-dev-certs');
  try {
    return await getHttpsServerOptions();
  } catch (error) {
    console.warn(
      `${error.message.trim()}\nThe certificate is not trusted on this machine; the host will refuse it until it is.`,
    );
    const read = (name) => readFileSync(path.join(homedir(), '.office-addin-dev-certs', name));
    return { ca: read('ca.crt'), cert: read('localhost.crt'), key: read('localhost.key') };
  }
}

function copies(base, office, trial) {
  const origin = URL.canParse(OFFICE_JS[office]) ? new URL(OFFICE_JS[office]).origin : '';
  const withOffice = (text) => text.replaceAll('%OFFICE_JS%', OFFICE_JS[office]).replaceAll('%OFFICE_ORIGIN%', origin);
  return [
    { from: 'manifest.xml', transform: (content) => content.toString().replaceAll(LOCAL, base) },
    { from: 'assets/icon-*.png' },
    { context: 'src/pane', from: '*.html', transform: (content) => withOffice(content.toString()) },
    ...(trial ? [{ context: 'src/trial', from: '*.html', to: 'trial' }] : []),
    ...(office === 'package'
      ? [
          { from: path.join(OFFICE_DIST, '../LICENSE.md'), to: 'office' },
          {
            context: OFFICE_DIST,
            from: '**/*.js',
            to: 'office',
            filter: loadedBySpreadsheet,
            info: { minimized: true },
          },
        ]
      : []),
  ];
}

/** The library's files a spreadsheet host may ask for: no other host's, no debugging copies. `minimized` above keeps them as they are. */
function loadedBySpreadsheet(file) {
  return !/\.debug\.js$|vsdoc|[/\\](access|onenote|outlook|powerpoint|project|visio|word)[^/\\]*\.js$/.test(file);
}

function address(base) {
  const url = new URL(base);
  if (url.protocol !== 'https:') throw new Error(`base is ${base}; the spreadsheet host takes https only`);
  return url.href.replace(/\/$/, '');
}

/** Writes functions.json from the declared functions anew in each compilation, so watching never leaves them stale. */
class CatalogueFiles {
  constructor(base, cards) {
    this.base = base;
    this.cards = cards;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap('CatalogueFiles', (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'CatalogueFiles', stage }, async () => {
        const { module, inputs } = await builtModule('src/addin/static-files.ts');
        for (const file of inputs) compilation.fileDependencies.add(path.join(ROOT, file));
        for (const [name, text] of Object.entries(module.staticFiles(this.base, this.cards))) {
          compilation.emitAsset(name, new webpack.sources.RawSource(text));
        }
      });
    });
  }
}

/** Writes the pages of the reference. They come out of a cache where no function changed, so watching keeps them right. */
class ReferenceFiles {
  apply(compiler) {
    compiler.hooks.thisCompilation.tap('ReferenceFiles', (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_SUMMARIZE;
      compilation.hooks.processAssets.tapPromise({ name: 'ReferenceFiles', stage }, async () => {
        const { files, inputs } = await referenceFiles();
        for (const file of inputs) compilation.fileDependencies.add(file);
        for (const [name, text] of Object.entries(files))
          compilation.emitAsset(`reference/${name}`, new webpack.sources.RawSource(text));
      });
    });
  }
}

const TYPES = { html: 'text/html', css: 'text/css', js: 'text/javascript' };

/** Serves the pages of the reference as they would be written now; so that starting does not wait for them. */
async function serveReference(request, response, next) {
  const name = new URL(request.url, 'http://localhost').pathname.slice(1) || 'index.html';
  // Links of a page are meant from inside the folder.
  if (request.originalUrl === '/reference') return response.writeHead(302, { Location: '/reference/' }).end();
  try {
    const { files } = await referenceFiles();
    if (!Object.hasOwn(files, name)) return next();
    response.setHeader('Content-Type', `${TYPES[name.split('.').pop()]}; charset=utf-8`);
    response.end(files[name]);
  } catch (error) {
    next(error);
  }
}
