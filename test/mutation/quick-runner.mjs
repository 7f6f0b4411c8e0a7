/**
 * Runs the tests of core for Stryker in one process, some ten times as fast as through the runner of the test tool: all test files
 * are bundled once, and evaluated anew for each fault, so that nothing is kept between faults. `expect` is the test tool's own.
 * Of the test tool's other functions the tests of core use `describe`, `it` and their `each` only.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import vm from 'node:vm';
import esbuild from 'esbuild';
import { expect } from 'vitest';
import { testsOf } from './tests.mjs';

const TIMES = '.cache/mutation/times.json';

class QuickRunner {
  static inject = ['options'];
  times = {};

  constructor(options) {
    this.bail = !options.disableBail;
  }

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    const files = testsOf(process.cwd());
    const stdin = {
      contents: files
        .map((file) => `inFile(${JSON.stringify(file)}); require(${JSON.stringify(`./${file}`)});`)
        .join('\n'),
      resolveDir: process.cwd(),
    };
    const shim = {
      name: 'vitest',
      setup: (build) => {
        build.onResolve({ filter: /^vitest$/ }, () => ({ path: 'vitest', namespace: 'shim' }));
        build.onLoad({ filter: /.*/, namespace: 'shim' }, () => ({
          contents: 'module.exports = testTool;',
          loader: 'js',
        }));
      },
    };
    const { outputFiles } = await esbuild.build({
      stdin,
      bundle: true,
      write: false,
      format: 'iife',
      platform: 'node',
      target: 'node20',
      plugins: [shim],
      logLevel: 'error',
    });
    this.script = new vm.Script(`(inFile, testTool) => {${outputFiles[0].text}\n}`, { filename: 'tests-of-core.js' });
    try {
      this.times = JSON.parse(readFileSync(TIMES, 'utf8'));
    } catch {
      // No run before this one.
    }
  }

  async dryRun() {
    const space = (globalThis.__stryker__ = { activeMutant: undefined });
    const tests = [];
    for (const test of this.collect()) {
      space.currentTestId = test.id;
      tests.push(await run(test));
      space.currentTestId = undefined;
    }
    this.times = Object.fromEntries(tests.map(({ id, timeSpentMs }) => [id, timeSpentMs]));
    mkdirSync(path.dirname(TIMES), { recursive: true });
    writeFileSync(TIMES, JSON.stringify(this.times));
    return { status: 'complete', tests, mutantCoverage: space.mutantCoverage ?? { static: {}, perTest: {} } };
  }

  /** Tests that take least come first, and the first failure ends the run. */
  async mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation }) {
    const space = (globalThis.__stryker__ = {
      hitLimit,
      hitCount: 0,
      activeMutant: mutantActivation === 'static' ? activeMutant.id : undefined,
    });
    let nrOfTests = 0;
    try {
      const wanted = testFilter && new Set(testFilter);
      const tests = this.collect().filter(({ id }) => !wanted || wanted.has(id));
      space.activeMutant = activeMutant.id;
      for (const test of tests.sort((a, b) => (this.times[a.id] ?? 0) - (this.times[b.id] ?? 0))) {
        nrOfTests += 1;
        const { status, failureMessage } = await run(test);
        if (hitLimit !== undefined && space.hitCount > hitLimit)
          return { status: 'timeout', reason: `Hit limit reached (${space.hitCount}/${hitLimit})` };
        if (status === 1) return { status: 'killed', killedBy: [test.id], failureMessage, nrOfTests };
      }
      return { status: 'survived', nrOfTests };
    } catch (error) {
      // A fault that keeps a file from loading.
      return { status: 'killed', killedBy: [], failureMessage: String(error), nrOfTests };
    }
  }

  /** Evaluates the bundle: every test file registers its tests. */
  collect() {
    const tests = [];
    const names = [];
    let file = '';
    const inside = (name, body) => {
      names.push(name);
      body();
      names.pop();
    };
    const add = (name, ...rest) =>
      void tests.push({
        id: `${file}#${[...names, name].join(' ')}#${tests.length}`,
        name: [...names, name].join(' '),
        body: rest.find((one) => typeof one === 'function'),
      });
    const each =
      (one) =>
      (rows) =>
      (name, ...rest) => {
        const body = rest.find((part) => typeof part === 'function');
        rows.forEach((row, index) => one(`${name} ${index + 1}`, () => body(...(Array.isArray(row) ? row : [row]))));
      };
    const testTool = {
      expect,
      describe: Object.assign(inside, { each: each(inside) }),
      it: Object.assign(add, { each: each(add) }),
    };
    this.script.runInThisContext()((name) => void (file = name), testTool);
    return tests;
  }
}

async function run({ id, name, body }) {
  const started = performance.now();
  try {
    await body();
    return { id, name, status: 0, timeSpentMs: performance.now() - started };
  } catch (error) {
    return {
      id,
      name,
      status: 1,
      failureMessage: String(error?.message ?? error),
      timeSpentMs: performance.now() - started,
    };
  }
}

export const strykerPlugins = [{ kind: 'TestRunner', name: 'quick', injectableClass: QuickRunner }];
